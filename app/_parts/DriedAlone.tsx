import type { RowDifference } from "#server/terms/difference";
import { batchInWords, joinInWords } from "../_words/difference";
import { Choice } from "./Choice";
import styles from "./Form.module.css";

interface Props {
  readonly row: RowDifference;
  readonly form: string;
}

/** A dried weight on a line of its own whose loads only a person knows; unanswered it is kept and waits for its load. */
export function DriedAlone({ row, form }: Props) {
  const place = `${row.sheet}!${row.row}`;
  return (
    <fieldset className={styles.choices}>
      <legend>
        <bdi>{row.sheet}</bdi>, row {row.row}
        {row.batch === null ? "" : `: ${batchInWords(row.batch)}`}
      </legend>
      {row.mayJoin.map((offered) => (
        <Choice key={offered.put} name={`are:${place}`} value={offered.put} form={form}>
          {joinInWords(offered)}
        </Choice>
      ))}
      <Choice name={`are:${place}`} value="" form={form} checked>
        I do not know yet: it waits for its load
      </Choice>
      <Choice kind="checkbox" name={`aside:${place}`} value="yes" form={form}>
        This is not a batch: set the row aside
      </Choice>
    </fieldset>
  );
}
