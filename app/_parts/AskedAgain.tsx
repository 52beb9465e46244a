import { Refreshed } from "../_client/Refreshed";

const EVERY_SECONDS = 2;

/** A page that shows how far something is asks for itself anew, with and without script. */
export function AskedAgain() {
  return (
    <>
      <noscript>
        <meta httpEquiv="refresh" content={String(EVERY_SECONDS)} />
      </noscript>
      <Refreshed everyMs={EVERY_SECONDS * 1000} />
    </>
  );
}
