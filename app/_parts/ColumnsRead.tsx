import type { ColumnRead, Reading, Remembered, TableRead } from "#server/terms/row";
import { rememberedInWords } from "../_words/likeBefore";
import {
  columnInWords,
  dayOrderInWords,
  type FromBefore,
  noteInWords,
  sureInWords,
  totalsInWords,
} from "../_words/understood";
import { Choice } from "./Choice";
import { ColumnChange } from "./ColumnChange";
import styles from "./ColumnsRead.module.css";
import { DayOrderChange } from "./DayOrderChange";

interface Props {
  readonly reading: Reading;
  readonly remembered: Remembered | null;
  /** the form that changes are posted with; null where nobody may change anything */
  readonly form: string | null;
}

/** A sentence for each column of a log: what it was taken for, why, in which unit, and how sure that is. */
export function ColumnsRead({ reading, remembered, form }: Props) {
  const notes = reading.notes.flatMap((note) => noteInWords(note) ?? []);
  const several = reading.tables.length > 1;
  return (
    <>
      {reading.tables.map((table) => (
        <section key={`${table.sheet} ${table.headingRow}`} className={styles.table}>
          <h3>
            {several ? <bdi>{table.sheet}: </bdi> : null}
            {table.headingRow === 0 ? "without headings" : `headings in row ${table.headingRow}`}
            {table.leftOut ? ", left out" : ""}
          </h3>
          {table.leftOut ? null : (
            <ul>
              {table.columns.map((column) => (
                <li key={column.column} data-sure={column.sure}>
                  <span className={styles.letter}>{column.column}</span>
                  <span>
                    {column.heading === "" ? null : <bdi className={styles.heading}>“{column.heading}” </bdi>}
                    {columnInWords(column, before(table, column, remembered))}
                  </span>
                  <span className={styles.sure}>{sureInWords(column)}</span>
                  {form === null ? null : <ColumnChange sheet={table.sheet} column={column} form={form} />}
                </li>
              ))}
            </ul>
          )}
          {table.dayOrder === null || table.leftOut ? null : (
            <p>
              {dayOrderInWords(table.dayOrder)}
              {remembered?.answers.dayOrder === table.dayOrder ? ` That is ${rememberedInWords(remembered)}.` : null}
            </p>
          )}
          {form === null || !(several || table.leftOut) ? null : (
            <Choice
              kind="checkbox"
              name={`${table.leftOut ? "readAgain" : "leftOut"}:${table.sheet}!${table.headingRow}`}
              value="yes"
              form={form}
            >
              {table.leftOut ? "Read this table after all" : "Leave this table out: it is not the log"}
            </Choice>
          )}
        </section>
      ))}
      {form === null || reading.tables.length === 0 ? null : <DayOrderChange form={form} />}
      {[...totalsInWords(reading.totals), ...notes].map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </>
  );
}

/** What of a column comes from an earlier log of the site. */
function before({ sheet }: TableRead, { column }: ColumnRead, remembered: Remembered | null): FromBefore {
  const place = `${sheet}!${column}`;
  const has = (answers: object | undefined) => answers !== undefined && Object.hasOwn(answers, place);
  const says = remembered === null ? null : rememberedInWords(remembered);
  return {
    meaning: has(remembered?.answers.meanings) ? says : null,
    unit: has(remembered?.answers.units) ? says : null,
  };
}
