import { Second } from "./Form";

/** Brings a log that was taken back in once more, as it came; it is looked at before it counts. */
export function SendAgain({ file }: { readonly file: string }) {
  return (
    <form method="post" action={`/files/${file}/again`}>
      <p>
        <Second>Send it again</Second>
      </p>
      <p>It is kept as it came. You look at it first, and nothing counts until you say so.</p>
    </form>
  );
}
