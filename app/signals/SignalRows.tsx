import type { SignalTold } from "#server/terms/signalTold";
import { Scrolling } from "../_parts/Scrolling";
import { dayInWords } from "../_words/days";
import { METHOD_WORDS } from "../_words/methods";
import { becameInWords } from "../_words/signalInbox";
import { stepInWords } from "../_words/signalStory";
import styles from "./page.module.css";

interface Props {
  /** each with its site's name; null where it has none, or where all did it together */
  readonly rows: readonly { readonly name: string | null; readonly signal: SignalTold }[];
  readonly suffix: string;
  readonly label: string;
}

/** Signals as a table: when told, of which site, what changed, and what became of it. */
export function SignalRows({ rows, suffix, label }: Props) {
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
          {rows.map(({ name, signal }) => (
            <tr key={signal.id}>
              <td>{dayInWords(signal.raisedOn)}</td>
              <th scope="row">
                {signal.site === null ? `Together, ${METHOD_WORDS[signal.method]}` : (name ?? signal.site)}
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
