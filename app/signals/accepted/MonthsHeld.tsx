import type { MonthWatched } from "#server/terms/acceptedTold";
import { Scrolling } from "../../_parts/Scrolling";
import { monthInWords } from "../../_words/days";
import styles from "./page.module.css";

/** What each month was held to, the latest first. */
export function MonthsHeld({ months }: { readonly months: readonly MonthWatched[] }) {
  return (
    <details className={styles.more}>
      <summary>What each month was held to</summary>
      <Scrolling label="What each month was held to">
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">Month</th>
              <th scope="col">Series</th>
              <th scope="col">Points</th>
              <th scope="col">Accepted, on average</th>
              <th scope="col">Points between two false signals of one series</th>
              <th scope="col">Limit, in spreads of recent days taken together</th>
            </tr>
          </thead>
          <tbody>
            {[...months].reverse().map((one) => (
              <tr key={one.month}>
                <th scope="row">{monthInWords(one.month)}</th>
                <td>{one.streams}</td>
                <td>{one.points.toLocaleString("en-GB")}</td>
                <td>{one.accepted.toFixed(2)}</td>
                <td>{one.meanPoints.toLocaleString("en-GB")}</td>
                <td>± {one.limit.toFixed(2)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolling>
    </details>
  );
}
