import type { AcceptedShown, SlowTold } from "#server/terms/acceptedTold";
import { Scrolling } from "../../_parts/Scrolling";
import { counted, dayInWords } from "../../_words/days";
import { seriesInWords, slowInWords } from "../../_words/signalAccepted";
import { percent } from "../../_words/signalSeries";
import { seriesHref } from "../seriesHref";
import styles from "./page.module.css";

interface Props {
  readonly accepted: AcceptedShown;
  readonly suffix: string;
}

/** The slow view: the quarter against each series' own earlier days, for what daily watching cannot see. */
export function Slow({ accepted: { slow, quarterFrom, falseShare }, suffix }: Props) {
  if (quarterFrom === null) return null;
  const named = slow.filter((one) => one.named);
  const others = slow.filter((one) => !one.named);
  return (
    <section aria-labelledby="slow">
      <h2 id="slow">Slow changes: the quarter against the days before it</h2>
      <p className={styles.text}>
        Since {dayInWords(quarterFrom)}, each series against the earlier days of its own reference. Named are those that
        differ by more than chance when all {slow.length} are looked at together; about {percent(falseShare)} of those
        named may still be chance. It is a view to ask by, and raises no signal.
      </p>
      {slow.length === 0 ? (
        <p>No series has eight days both in the quarter and before it yet.</p>
      ) : named.length === 0 ? (
        <p>None of {counted(slow.length, "series", "series")} is named.</p>
      ) : (
        <Table rows={named} suffix={suffix} label="Series that changed slowly" />
      )}
      {others.length === 0 ? null : (
        <details className={styles.more}>
          <summary>{counted(others.length, "series", "series")} not named</summary>
          <Table rows={others} suffix={suffix} label="Series that are not named" />
        </details>
      )}
    </section>
  );
}

interface TableProps {
  readonly rows: readonly SlowTold[];
  readonly label: string;
  readonly suffix: string;
}

function Table({ rows, label, suffix }: TableProps) {
  const sorted = rows
    .map((row) => ({ row, name: seriesInWords(row) }))
    .sort((a, b) => a.name.localeCompare(b.name, "en"));
  return (
    <Scrolling label={label}>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">Series</th>
            <th scope="col">Quarter against before</th>
            <th scope="col">Days in it, and before</th>
            <th scope="col">Chance of so much, all looked at together</th>
          </tr>
        </thead>
        <tbody>
          {sorted.map(({ row, name }) => (
            <tr key={name}>
              <th scope="row">
                <a href={seriesHref(row, suffix)}>{name}</a>
              </th>
              <td>{slowInWords(row)}</td>
              <td>
                {row.days}, {row.daysBefore}
              </td>
              <td>{row.adjusted < 0.001 ? "below 0.1 %" : percent(row.adjusted)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scrolling>
  );
}
