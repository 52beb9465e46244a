import type { ReactNode } from "react";
import type { Api } from "#server/api/request";
import { Scrolling } from "../../../../_parts/Scrolling";
import { dayInWords } from "../../../../_words/days";
import { FATE_WORDS } from "../../../../_words/files";
import { METHOD_WORDS } from "../../../../_words/methods";
import { rowHref } from "../../../../files/rowPlace";
import styles from "./BatchesTable.module.css";

type BatchItem = Awaited<ReturnType<Api["evidence"]["batches"]>>[number];
type Row = BatchItem["rows"][number];

const MEASURED = [
  { meaning: "fresh", heading: "Fresh in", unit: "kg", of: ({ batch }: BatchItem) => batch.fresh },
  { meaning: "dried", heading: "Dried out", unit: "kg", of: ({ batch }: BatchItem) => batch.dried },
  { meaning: "minutes", heading: "On the fire", unit: "min", of: ({ batch }: BatchItem) => batch.minutes },
] as const;

/** Batches with their values, the cells that these were read from, and every row that speaks of them with its fate. */
export function BatchesTable({ items }: { readonly items: readonly BatchItem[] }) {
  const methods = new Set(items.map(({ batch }) => batch.method)).size;
  return (
    <Scrolling label="Batches of the month">
      <table className={styles.batches}>
        <caption>Cells stand as they were written.</caption>
        <thead>
          <tr>
            <th scope="col">Batch</th>
            {MEASURED.map(({ heading, unit }) => (
              <th key={heading} scope="col">
                {heading}, {unit}
              </th>
            ))}
            <th scope="col">Rows that speak of it</th>
          </tr>
        </thead>
        <tbody>
          {items.map((item) => (
            <tr key={item.batch.id}>
              <th scope="row">
                {dayInWords(item.batch.day)}
                <span className={styles.called}>
                  <bdi>{calledBy(item, methods > 1)}</bdi>
                </span>
              </th>
              {MEASURED.map((traced) => (
                <td key={traced.meaning}>
                  <Value traced={traced} item={item} />
                </td>
              ))}
              <td>
                <Rows rows={item.rows} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scrolling>
  );
}

/** What the site calls it: "number 4, pan 2, 18 loads". */
function calledBy({ batch: { number, pan, loads, method } }: BatchItem, withMethod: boolean): string {
  const parts = [
    ...(number === null ? [] : [`number ${number}`]),
    ...(pan === null ? [] : [`pan ${pan}`]),
    ...(loads === 1 ? [] : [`${loads} loads`]),
    ...(withMethod ? [METHOD_WORDS[method]] : []),
  ];
  return parts.join(", ");
}

function Value({ traced, item }: { readonly traced: (typeof MEASURED)[number]; readonly item: BatchItem }) {
  const value = traced.of(item);
  const where = item.written[traced.meaning];
  if (value === null) {
    const toCome = traced.meaning === "dried" && item.batch.driedToCome;
    return <span className={styles.quiet}>{toCome ? "to come" : "not said"}</span>;
  }
  return (
    <>
      {value.exact}
      {where === null ? null : (
        <span className={styles.where}>
          <Place row={where.standing}>
            {where.column}
            {where.standing.row}
          </Place>{" "}
          “<bdi>{where.text}</bdi>”
        </span>
      )}
    </>
  );
}

function Rows({ rows }: { readonly rows: readonly Row[] }) {
  return (
    <ul className={styles.rows}>
      {rows.map((row) => (
        <li key={`${row.file} ${row.sheet} ${row.row}`}>
          <Place row={row}>row {row.row}</Place> of {row.log}
          {row.part === "dried" ? ", the dried weight" : ""}, {row.stands ? FATE_WORDS[row.fate] : "taken back"}
        </li>
      ))}
    </ul>
  );
}

/** A link to the row; plain where the log is the programme's and may not be seen whole. */
function Place({ row, children }: { readonly row: Row; readonly children: ReactNode }) {
  return row.sha256 === null ? <span>{children}</span> : <a href={rowHref(row.file, row)}>{children}</a>;
}
