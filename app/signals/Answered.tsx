import type { StoryTold } from "#server/terms/signalTold";
import { Scrolling } from "../_parts/Scrolling";
import { dayInWords } from "../_words/days";
import { METHOD_WORDS } from "../_words/methods";
import { becameInWords } from "../_words/signalInbox";
import { stepInWords } from "../_words/signalStory";
import styles from "./page.module.css";
import { overInOrder } from "./sortedOut";

const SHOWN = 12;

/** What waits for nobody: answered, gone back, ended, or no longer supported by the records. The latest first. */
export function Answered({ stories, suffix }: { readonly stories: readonly StoryTold[]; readonly suffix: string }) {
  const rows = overInOrder(stories);
  return (
    <section aria-labelledby="answered">
      <h2 id="answered">Answered, or over</h2>
      <Rows rows={rows.slice(0, SHOWN)} suffix={suffix} label="Signals that were answered or are over" />
      {rows.length <= SHOWN ? null : (
        <details className={styles.more}>
          <summary>{rows.length - SHOWN} earlier ones</summary>
          <Rows rows={rows.slice(SHOWN)} suffix={suffix} label="Earlier signals that were answered or are over" />
        </details>
      )}
    </section>
  );
}

interface RowsProps {
  readonly rows: ReturnType<typeof overInOrder>;
  readonly suffix: string;
  readonly label: string;
}

function Rows({ rows, suffix, label }: RowsProps) {
  return (
    <Scrolling label={label}>
      <table className={styles.over}>
        <thead>
          <tr>
            <th scope="col">Told on</th>
            <th scope="col">Site</th>
            <th scope="col">What changed</th>
            <th scope="col">What became of it</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ story, signal }) => (
            <tr key={signal.id}>
              <td>{dayInWords(signal.raisedOn)}</td>
              <th scope="row">
                {story.site === null ? `Together, ${METHOD_WORDS[signal.method]}` : (story.name ?? story.site)}
              </th>
              <td>
                <a href={`/signals/${signal.id}${suffix}`}>{stepInWords(signal)}</a>
              </td>
              <td>{becameInWords(signal)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scrolling>
  );
}
