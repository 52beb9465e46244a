import type { SignalRevision } from "#server/terms/signalTold";
import { Scrolling } from "../../_parts/Scrolling";
import { dayInWords, momentInWords, monthInWords } from "../../_words/days";
import { STANDING_WORDS } from "../../_words/signalInbox";
import styles from "./page.module.css";

/** How the signal stood at the end of each month, and when that became known: late and corrected logs change it. */
export function HowTold({ revisions }: { readonly revisions: readonly SignalRevision[] }) {
  return (
    <details className={styles.more}>
      <summary>How it was told over time</summary>
      <Scrolling label="How it was told over time">
        <table className={styles.days}>
          <thead>
            <tr>
              <th scope="col">At the end of</th>
              <th scope="col">Change</th>
              <th scope="col">Since</th>
              <th scope="col">State</th>
              <th scope="col">Known on</th>
            </tr>
          </thead>
          <tbody>
            {revisions.map(({ month, state, change, since, at, ledgerIndex }) => (
              <tr key={`${month} ${ledgerIndex}`}>
                <th scope="row">{monthInWords(month)}</th>
                <td>{`${(change * 100).toFixed(1).replace("-", "−")} %`}</td>
                <td>{since === null ? "date not determined" : dayInWords(since)}</td>
                <td>{STANDING_WORDS[state]}</td>
                <td>{at === null ? "–" : momentInWords(at)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolling>
    </details>
  );
}
