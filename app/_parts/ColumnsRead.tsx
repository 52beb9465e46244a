import type { Reading } from "#server/terms/row";
import { columnInWords, dayOrderInWords, noteInWords, sureInWords, totalInWords } from "../_words/understood";
import styles from "./ColumnsRead.module.css";

/** A sentence for each column of a log: what it was taken for, why, in which unit, and how sure that is. */
export function ColumnsRead({ reading }: { readonly reading: Reading }) {
  const notes = reading.notes.flatMap((note) => noteInWords(note) ?? []);
  return (
    <>
      {reading.tables.map(({ sheet, headingRow, columns, dayOrder }) => (
        <section key={`${sheet} ${headingRow}`} className={styles.table}>
          <h3>
            {reading.tables.length > 1 ? <bdi>{sheet}: </bdi> : null}headings in row {headingRow}
          </h3>
          <ul>
            {columns.map((column) => (
              <li key={column.column} data-sure={column.sure}>
                <span className={styles.letter}>{column.column}</span>
                <span>
                  {column.heading === "" ? null : <bdi className={styles.heading}>“{column.heading}” </bdi>}
                  {columnInWords(column)}
                </span>
                <span className={styles.sure}>{sureInWords(column)}</span>
              </li>
            ))}
          </ul>
          {dayOrder === null ? null : <p>{dayOrderInWords(dayOrder)}</p>}
        </section>
      ))}
      {[...reading.totals.map(totalInWords), ...notes].map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </>
  );
}
