import type { Fate, Problem } from "#server/terms/problem";
import type { CellRead } from "#server/terms/row";
import { FATE_WORDS } from "../_words/files";
import { MEANING_WORDS } from "../_words/meanings";
import { reasonInWords } from "../_words/problems";
import styles from "./RowsTable.module.css";
import { Scrolling } from "./Scrolling";

interface Row {
  readonly sheet: string;
  readonly row: number;
  readonly fate: Fate;
  readonly reasons: readonly Problem[];
  readonly cells: readonly CellRead[];
}

/** Rows with their fate, the reasons, and the cells as they were written. */
export function RowsTable({ rows }: { readonly rows: readonly Row[] }) {
  if (rows.length === 0) return <p>There is no such row.</p>;
  const sheets = new Set(rows.map(({ sheet }) => sheet)).size;
  return (
    <Scrolling label="Rows of the log">
      <table className={styles.rows}>
        <caption>Cells stand as they were written. Names and remarks are sealed and not shown.</caption>
        <thead>
          <tr>
            <th scope="col">Row</th>
            <th scope="col">What became of it</th>
            <th scope="col">As written</th>
            <th scope="col">Why</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ sheet, row, fate, reasons, cells }) => (
            <tr key={`${sheet} ${row}`} data-fate={fate}>
              <th scope="row">
                {sheets > 1 ? <bdi>{sheet} </bdi> : null}
                {row}
              </th>
              <td className={styles.fate}>{FATE_WORDS[fate]}</td>
              <td>
                {cells
                  .filter(({ text }) => text !== "")
                  .map(({ column, meaning, text }) => (
                    <span key={column} className={styles.cell}>
                      <span className={styles.meaning}>
                        {column}, {MEANING_WORDS[meaning]}
                      </span>{" "}
                      <bdi>{text}</bdi>
                    </span>
                  ))}
              </td>
              <td>{reasons.map(reasonInWords).join(" ")}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scrolling>
  );
}
