import type { Reading, RowRead } from "#server/terms/row";
import { Choice } from "./Choice";
import form from "./Form.module.css";
import styles from "./RowsTable.module.css";
import { Scrolling } from "./Scrolling";

/** So many first rows of a sheet are shown: headings stand above. */
const SHOWN = 15;

/** A sheet in which no table was found: somebody points at its headings, or says that it has none. */
export function PickHeadings({ reading }: { readonly reading: Reading }) {
  const lost = reading.rows.filter(({ reasons }) => reasons.some(({ code }) => code === "no-table-in-sheet"));
  const sheets = [...new Set(lost.map(({ sheet }) => sheet))];
  return sheets.map((sheet) => {
    const rows = lost.filter((row) => row.sheet === sheet).slice(0, SHOWN);
    const width = Math.max(...rows.map(({ sealed }) => sealed.length));
    const name = `headings:${sheet}`;
    return (
      <fieldset key={sheet} className={form.choices}>
        <legend>
          No table was found in {sheets.length > 1 ? <bdi>“{sheet}”</bdi> : "this log"}. In which row do its headings
          stand?
        </legend>
        <Scrolling label={`First rows of ${sheet}`}>
          <table className={styles.rows}>
            <tbody>
              {rows.map((row) => (
                <tr key={row.row}>
                  <th scope="row">
                    <Choice name={name} value={String(row.row)}>
                      Row {row.row}
                    </Choice>
                  </th>
                  <Cells row={row} width={width} />
                </tr>
              ))}
            </tbody>
          </table>
        </Scrolling>
        <div className={form.field}>
          <label htmlFor={`headingsFrom:${sheet}`}>
            Do they stand in several rows, one above the other? Then choose the lowest above, and here where they begin
          </label>
          <select id={`headingsFrom:${sheet}`} name={`headingsFrom:${sheet}`} className={form.control} defaultValue="">
            <option value="">all in one row</option>
            {rows.slice(0, -1).map((row) => (
              <option key={row.row} value={row.row}>
                from row {row.row} on
              </option>
            ))}
          </select>
        </div>
        <Choice name={name} value="0">
          It has no headings: I will say below what each column holds
        </Choice>
        <Choice name={name} value="" checked>
          I do not know
        </Choice>
      </fieldset>
    );
  });
}

function Cells({ row, width }: { readonly row: RowRead; readonly width: number }) {
  return (
    <td colSpan={width}>
      {row.sealed.map(({ column, text }, at) => (
        <span key={column}>
          {at === 0 ? "" : " · "}
          <bdi>{text}</bdi>
        </span>
      ))}
    </td>
  );
}
