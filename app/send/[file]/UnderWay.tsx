import type { Progress } from "#server/jobs/underWay";
import { AskedAgain } from "../../_parts/AskedAgain";
import { Second } from "../../_parts/Form";
import { progressInWords, workInWords } from "../../_words/underWay";
import styles from "./UnderWay.module.css";

interface Props {
  readonly file: string;
  /** null: it has just ended, and the next look shows what came of it */
  readonly progress: Progress | null;
  /** what the address asked, to be asked again after a stop */
  readonly query: string;
}

/** How far a log is while it is read or counted. The page asks anew by itself, with and without script. */
export function UnderWay({ file, progress, query }: Props) {
  const shown = progress === null ? null : shareOf(progress);
  return (
    <>
      <AskedAgain />
      <p>
        {progress === null ? "It has just ended; in a moment this page shows what came of it." : workInWords(progress)}
      </p>
      {progress === null ? null : (
        <p>
          <progress className={styles.bar} aria-label="How far it is" {...(shown === null ? {} : shown)} />
          {progressInWords(progress)}
        </p>
      )}
      <form method="post" action={`/send/${file}/stop`}>
        <input type="hidden" name="query" value={query} />
        <p>
          <Second>Stop</Second>
        </p>
      </form>
      <p>You may leave this page or load it again: it goes on, and the page shows how far it is.</p>
    </>
  );
}

function shareOf({ bytes, ofBytes, rows, ofRows, inParts }: Progress): { value: number; max: number } | null {
  if (ofRows !== null) return { value: rows, max: Math.max(1, ofRows) };
  return inParts ? { value: bytes, max: Math.max(1, ofBytes) } : null;
}
