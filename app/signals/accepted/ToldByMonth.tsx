import type { MonthWatched } from "#server/terms/acceptedTold";
import { monthInWords } from "../../_words/days";
import styles from "./page.module.css";

interface Props {
  readonly months: readonly MonthWatched[];
  readonly suffix: string;
}

/** The counts of the picture, each leading to the signals that it counts. */
export function ToldByMonth({ months, suffix }: Props) {
  const some = months.filter(({ raised }) => raised > 0);
  if (some.length === 0) return null;
  return (
    <>
      <p className={styles.caption} id="by-month">
        Signals told, by month
      </p>
      <ul className={styles.byMonth} aria-labelledby="by-month">
        {some.map(({ month, raised }) => (
          <li key={month}>
            <a href={`/signals/told/${month}${suffix}`}>
              {monthInWords(month)}: {raised}
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}
