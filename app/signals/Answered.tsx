import type { StoryTold } from "#server/terms/signalTold";
import styles from "./page.module.css";
import { SignalRows } from "./SignalRows";
import { overInOrder } from "./sortedOut";

const SHOWN = 12;

/** What waits for nobody: answered, gone back, ended, or no longer supported by the records. The latest first. */
export function Answered({ stories, suffix }: { readonly stories: readonly StoryTold[]; readonly suffix: string }) {
  const rows = overInOrder(stories).map(({ story: { name }, signal }) => ({ name, signal }));
  return (
    <section aria-labelledby="answered">
      <h2 id="answered">Answered, or over</h2>
      <SignalRows rows={rows.slice(0, SHOWN)} suffix={suffix} label="Signals that were answered or are over" />
      {rows.length <= SHOWN ? null : (
        <details className={styles.more}>
          <summary>{rows.length - SHOWN} earlier ones</summary>
          <SignalRows rows={rows.slice(SHOWN)} suffix={suffix} label="Earlier signals that were answered or are over" />
        </details>
      )}
    </section>
  );
}
