import type { Fate, Problem } from "#server/terms/problem";
import type { CellRead } from "#server/terms/row";
import { FATE_WORDS } from "../_words/files";
import { MEANING_WORDS } from "../_words/meanings";
import { reasonInWords } from "../_words/problems";
import { rowAnchor } from "../files/rowPlace";
import styles from "./RowsTable.module.css";
import { Scrolling } from "./Scrolling";

interface Row {
  readonly sheet: string;
  readonly row: number;
  readonly fate: Fate;
  readonly reasons: readonly Problem[];
  readonly cells: readonly CellRead[];
}

interface Props {
  readonly rows: readonly Row[];
  /** the picture that the log was typed from, and its line for each row after the headings */
  readonly typedFrom?: { readonly file: string; readonly code: string; readonly lines: readonly number[] } | null;
}

/** Rows with their fate, the cells as they were written, and the reasons. */
export function RowsTable({ rows, typedFrom = null }: Props) {
  if (rows.length === 0) return <p>There is no such row.</p>;
  const sheets = new Set(rows.map(({ sheet }) => sheet)).size;
  const columns = columnsOf(rows);
  return (
    <Scrolling label="Rows of the log">
      <table className={styles.rows}>
        <caption>Cells stand as they were written. Names and remarks are sealed and not shown.</caption>
        <thead>
          <tr>
            <th scope="col">Row</th>
            <th scope="col">Became</th>
            {columns.map(({ column, meaning }) => (
              <th key={`${column} ${meaning}`} scope="col">
                {MEANING_WORDS[meaning]} <span className={styles.letter}>{column}</span>
              </th>
            ))}
            <th scope="col">Why</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ sheet, row, fate, reasons, cells }) => (
            <tr key={`${sheet} ${row}`} id={rowAnchor({ sheet, row })} data-fate={fate}>
              <th scope="row">
                {sheets > 1 ? <bdi>{sheet} </bdi> : null}
                {row}
                {typedFrom?.lines[row - 2] === undefined ? null : (
                  <>
                    {" "}
                    <a href={`/files/${typedFrom.file}`}>
                      line {typedFrom.lines[row - 2]} of {typedFrom.code}
                    </a>
                  </>
                )}
              </th>
              <td className={styles.fate}>{FATE_WORDS[fate]}</td>
              {columns.map(({ column, meaning }) => (
                <td key={`${column} ${meaning}`} className={styles.cell}>
                  <bdi>{cells.find((cell) => cell.column === column && cell.meaning === meaning)?.text}</bdi>
                </td>
              ))}
              <td>{reasons.map(reasonInWords).join(" ")}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scrolling>
  );
}

/** Every column that some row has, in the order of the sheet: "B" before "AA". */
function columnsOf(rows: readonly Row[]): Pick<CellRead, "column" | "meaning">[] {
  const found = new Map(
    rows.flatMap(({ cells }) =>
      cells.map(({ column, meaning }) => [`${column} ${meaning}`, { column, meaning }] as const),
    ),
  );
  return [...found.values()].sort(
    (a, b) => a.column.length - b.column.length || (a.column < b.column ? -1 : Number(a.column > b.column)),
  );
}
