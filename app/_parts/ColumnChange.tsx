import type { ColumnRead, Meaning } from "#server/terms/row";
import { CHOOSABLE, MEANING_WORDS, unitInWords, unitsFor } from "../_words/meanings";
import styles from "./ColumnChange.module.css";
import form from "./Form.module.css";

interface Props {
  readonly sheet: string;
  readonly column: ColumnRead;
  /** the form that the answers are posted with */
  readonly form: string;
}

/** Lets somebody say that a column holds something else, or is in another unit. Left alone it changes nothing. */
export function ColumnChange({ sheet, column, form: to }: Props) {
  const place = `${sheet}!${column.column}`;
  const units = unitsFor(column.meaning).filter((unit) => unit !== column.unit);
  return (
    <details className={styles.change}>
      <summary aria-label={`Change column ${column.column}`}>Change</summary>
      <label>
        <span>It holds</span>
        <select name={`meaning:${place}`} form={to} className={form.control} defaultValue="">
          <option value="">as read: {column.meaning === null ? "nothing" : MEANING_WORDS[column.meaning]}</option>
          {meaningsBeside(column.meaning).map((meaning) => (
            <option key={meaning} value={meaning}>
              {MEANING_WORDS[meaning]}
            </option>
          ))}
          {column.meaning === null ? null : <option value="ignore">nothing that needs to be read</option>}
        </select>
      </label>
      {units.length === 0 ? null : (
        <label>
          <span>Its unit is</span>
          <select name={`unit:${place}`} form={to} className={form.control} defaultValue="">
            <option value="">as read{column.unit === null ? "" : `: ${unitInWords(column.unit)}`}</option>
            {units.map((unit) => (
              <option key={unit} value={unit}>
                {unitInWords(unit)}
              </option>
            ))}
          </select>
        </label>
      )}
    </details>
  );
}

function meaningsBeside(meaning: Meaning | null): readonly Meaning[] {
  return CHOOSABLE.filter((one) => one !== meaning);
}
