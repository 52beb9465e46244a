import { holds, type Problem, type ProblemCode } from "#server/terms/problem";
import type { Reading, RowRead } from "#server/terms/row";
import type { Usual } from "../_words/choices";
import { Choice } from "./Choice";
import { HeldReason } from "./HeldReason";
import styles from "./HeldRow.module.css";

/** A row that needs an answer: what stands in it, what is the matter, and what each answer would make of it. */
export function HeldRow({
  row,
  reading,
  usual,
}: {
  readonly row: RowRead;
  readonly reading: Reading;
  readonly usual: Usual;
}) {
  return (
    <section className={styles.row} aria-label={`Row ${row.row}`}>
      <h3>
        {reading.tables.length > 1 ? <bdi>{row.sheet}, </bdi> : null}row {row.row}
      </h3>
      <Cells row={row} reading={reading} />
      {[...doubtsOf(row)].map(([code, reasons]) => (
        <HeldReason key={code} row={row} reasons={reasons} usual={usual} />
      ))}
      <Choice kind="checkbox" name={`aside:${row.sheet}!${row.row}`} value="yes">
        This is not a batch: set the row aside
      </Choice>
    </section>
  );
}

/** What holds the row, each kind of doubt once, though it may be about several cells. */
function doubtsOf(row: RowRead): Map<ProblemCode, Problem[]> {
  const doubts = new Map<ProblemCode, Problem[]>();
  for (const reason of row.reasons.filter(({ code }) => holds(code))) {
    doubts.set(reason.code, [...(doubts.get(reason.code) ?? []), reason]);
  }
  return doubts;
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
