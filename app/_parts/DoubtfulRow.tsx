import type { RowDifference } from "#server/terms/difference";
import { batchInWords } from "../_words/difference";
import styles from "./Form.module.css";

interface Props {
  readonly row: RowDifference;
  readonly form: string;
}

/** A row of which only a person knows whether it is a load that is here already; unanswered it is kept and does not count. */
export function DoubtfulRow({ row, form }: Props) {
  const place = `${row.sheet}!${row.row}`;
  const several = (row.batch?.loads ?? 1) > 1;
  const choices = [
    ...row.mayBe.map((batch) => ({ put: batch.id, says: `It is the same as ${batchInWords(batch)}, corrected.` })),
    ...(several && row.mayBe.length > 0
      ? [{ put: "instead", says: "It takes the place of these loads, which came one by one." }]
      : []),
    { put: "new", says: several ? "These are other loads." : "It is another load." },
  ];
  return (
    <fieldset className={styles.choices}>
      <legend>
        <bdi>{row.sheet}</bdi>, row {row.row}
        {row.batch === null ? "" : `: ${batchInWords(row.batch)}`}
      </legend>
      {choices.map(({ put, says }) => (
        <label key={put} className={styles.choice}>
          <input type="radio" name={`are:${place}`} value={put} form={form} />
          <span>{says}</span>
        </label>
      ))}
      <label className={styles.choice}>
        <input type="checkbox" name={`aside:${place}`} value="yes" form={form} />
        <span>This is not a batch: set the row aside</span>
      </label>
    </fieldset>
  );
}
