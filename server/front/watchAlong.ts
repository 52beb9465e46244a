import { asPerson } from "#db/asPerson";
import { ledgerHead } from "#db/queries/ledger";
import type { Store } from "#db/store";
import { watchNow } from "#server/jobs/watchNow";
import { OPERATOR } from "#server/terms/person";

/** The ledger is looked at so often; logs that come one after the other are watched together. */
const EVERY_MS = 4000;
/** While logs keep coming they are watched after so many looks all the same. */
const LONGEST = 15;
/** So long is waited for what is under way when we are told to stop: what was not recorded is watched at the next start. */
const PATIENCE_MS = 3000;

/**
 * Watches for change while the server runs: once the logs that came have settled, their signals are recorded, so that
 * pages find them. Answers how to stop.
 */
export function watchAlong(store: Store, trouble: (what: unknown) => void): () => Promise<void> {
  let stopped = false;
  let [last, done, looks] = [0, 0, 0];
  let running: Promise<void> = Promise.resolve();
  const size = () => asPerson({ store, person: OPERATOR.id }, async (tx) => (await ledgerHead(tx)).size);
  const look = async () => {
    const now = await size();
    const settled = now === last;
    last = now;
    looks = settled || now === done ? 0 : looks + 1;
    if (now === done || (!settled && looks < LONGEST)) return;
    looks = 0;
    await watchNow(store);
    done = await size();
    last = done;
  };
  const next = () =>
    setTimeout(() => {
      running = look()
        .catch((what: unknown) => {
          if (!stopped) trouble(what);
        })
        .finally(() => {
          if (!stopped) timer = next();
        });
    }, EVERY_MS).unref();
  let timer = next();
  return async () => {
    stopped = true;
    clearTimeout(timer);
    await Promise.race([running, new Promise((gone) => setTimeout(gone, PATIENCE_MS))]);
  };
}
