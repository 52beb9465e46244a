import type { Reading, RowRead } from "#server/terms/row";
import { Choice } from "./Choice";
import form from "./Form.module.css";

/** So many first rows of a sheet are shown: headings stand above. */
const SHOWN = 15;
/** So much of a row tells it from the others. */
const MOST_TEXT = 200;

/** A sheet in which no table was found: somebody points at its headings, or says that it has none. */
export function PickHeadings({ reading }: { readonly reading: Reading }) {
  const lost = reading.rows.filter(({ reasons }) => reasons.some(({ code }) => code === "no-table-in-sheet"));
  const sheets = [...new Set(lost.map(({ sheet }) => sheet))];
  return sheets.map((sheet) => {
    const rows = lost.filter((row) => row.sheet === sheet).slice(0, SHOWN);
    const name = `headings:${sheet}`;
    return (
      <fieldset key={sheet} className={form.choices}>
        <legend>
          No table was found in {sheets.length > 1 ? <bdi>“{sheet}”</bdi> : "this log"}. In which row do its headings
          stand?
        </legend>
        {rows.map((row) => (
          <Choice key={row.row} name={name} value={String(row.row)} follows={textOf(row)}>
            Row {row.row}
          </Choice>
        ))}
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

/** What stands in a row, cell by cell. */
function textOf({ sealed }: RowRead): string {
  return sealed
    .map(({ text }) => text.trim())
    .filter((text) => text !== "")
    .join(" · ")
    .slice(0, MOST_TEXT);
}
