import type { LikeBefore as Like } from "#server/terms/look";
import { layoutInWords } from "../_words/likeBefore";

/** Whether the log looks like one that the site sent before, and what has changed since. */
export function LikeBefore({ like, earlier }: { readonly like: Like | null; readonly earlier: number }) {
  const [first, ...changes] = layoutInWords(like, earlier);
  if (first === undefined) return null;
  return (
    <section aria-label="Since the last log">
      <p>{first}</p>
      {changes.length === 0 ? null : (
        <ul>
          {changes.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
