import { holds } from "#server/terms/problem";
import type { Reading, RowRead } from "#server/terms/row";
import { choiceInWords, exchangedCells, standsAsWritten } from "../_words/choices";
import { reasonInWords } from "../_words/problems";
import { Choice } from "./Choice";
import form from "./Form.module.css";
import styles from "./HeldRow.module.css";

/** A row that needs an answer: what stands in it, what is the matter, and what each answer would make of it. */
export function HeldRow({ row, reading }: { readonly row: RowRead; readonly reading: Reading }) {
  const place = `${row.sheet}!${row.row}`;
  const exchange = exchangedCells(row);
  return (
    <section className={styles.row} aria-label={`Row ${row.row}`}>
      <h3>
        {reading.tables.length > 1 ? <bdi>{row.sheet}, </bdi> : null}row {row.row}
      </h3>
      <Cells row={row} reading={reading} />
      {row.reasons
        .filter(({ code }) => holds(code))
        .map((reason) => {
          const { column } = reason.at;
          const cell = `${row.sheet}!${column}${row.row}`;
          const asWritten = standsAsWritten(reason);
          return (
            <fieldset key={`${reason.code} ${column}`} className={form.choices}>
              <legend>{reasonInWords(reason)}</legend>
              {column === null ? null : (
                <>
                  {(reason.choices ?? []).map((choice) => (
                    <Choice key={choice.put} name={`cell:${cell}`} value={choice.put}>
                      {choiceInWords(choice)}
                    </Choice>
                  ))}
                  {asWritten === null ? null : (
                    <Choice name={`cell:${cell}`} value={asWritten}>
                      It is right as it stands: {reason.text}
                    </Choice>
                  )}
                  <label className={styles.own}>
                    <span>Or write what it should be</span>
                    <input name={`own:${cell}`} className={form.control} autoComplete="off" />
                  </label>
                </>
              )}
            </fieldset>
          );
        })}
      {exchange === null ? null : (
        <Choice kind="checkbox" name={`puts:${place}`} value={JSON.stringify(exchange.puts)}>
          {exchange.says}
        </Choice>
      )}
      <Choice kind="checkbox" name={`aside:${place}`} value="yes">
        This is not a batch: set the row aside
      </Choice>
    </section>
  );
}

function Cells({ row, reading }: { readonly row: RowRead; readonly reading: Reading }) {
  const columns = reading.tables.filter((table) => table.sheet === row.sheet).flatMap((table) => table.columns);
  return (
    <dl className={styles.cells}>
      {row.cells
        .filter(({ text }) => text !== "")
        .map(({ column, text }) => (
          <div key={column}>
            <dt>{columns.find((one) => one.column === column)?.heading || column}</dt>
            <dd>
              <bdi>{text}</bdi>
            </dd>
          </div>
        ))}
    </dl>
  );
}
