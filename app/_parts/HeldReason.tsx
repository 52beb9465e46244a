import type { Problem } from "#server/terms/problem";
import type { RowRead } from "#server/terms/row";
import { settlingsOf, type Usual } from "../_words/choices";
import { MEANING_WORDS } from "../_words/meanings";
import { reasonsInWords } from "../_words/problems";
import { Choice } from "./Choice";
import form from "./Form.module.css";
import styles from "./HeldRow.module.css";

interface Props {
  readonly row: RowRead;
  /** one doubt about one or several cells of the row */
  readonly reasons: readonly Problem[];
  readonly usual: Usual;
}

/** One doubt about a row: what is the matter, what each answer would make of it, and room for another answer. */
export function HeldReason({ row, reasons, usual }: Props) {
  const [first] = reasons;
  if (first === undefined) return null;
  const settlings = settlingsOf(row, reasons, usual);
  const name = `puts:${row.sheet}!${row.row} ${first.code}`;
  const columns = reasons.flatMap(({ at }) => at.column ?? []);
  return (
    <fieldset className={form.choices}>
      <legend>{reasonsInWords(reasons)}</legend>
      {settlings.map(({ value, says }) => (
        <Choice key={says} name={name} value={value}>
          {says}
        </Choice>
      ))}
      {settlings.length === 0 ? null : (
        <Choice name={name} value="" checked>
          I do not know yet
        </Choice>
      )}
      {columns.map((column) => (
        <label key={column} className={styles.own}>
          <span>Or write what {meaningAt(row, column)} should be</span>
          <input name={`own:${row.sheet}!${column}${row.row}`} className={form.control} autoComplete="off" />
        </label>
      ))}
    </fieldset>
  );
}

function meaningAt(row: RowRead, column: string): string {
  const cell = row.cells.find((one) => one.column === column);
  return cell === undefined ? `column ${column}` : MEANING_WORDS[cell.meaning];
}
