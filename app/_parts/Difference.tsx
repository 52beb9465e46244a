import type { RowDifference, Difference as Told } from "#server/terms/difference";
import { counted } from "../_words/days";
import { batchInWords, countsInWords, fuelDifferenceInWords, rowDifferenceInWords } from "../_words/difference";
import styles from "./Difference.module.css";
import { DoubtfulRow } from "./DoubtfulRow";
import { DriedAlone } from "./DriedAlone";
import { NotSentAgain } from "./NotSentAgain";

/** So many rows of a kind stand open; the rest is behind a fold. */
const OPEN = 20;

interface Props {
  readonly difference: Told;
  /** the form that the answers belong to */
  readonly form: string;
  /** what was ticked and said before */
  readonly ticked: ReadonlySet<string>;
  readonly said: { readonly why: string; readonly words: string };
}

/** What counting a log would change in what is here already: row by row, field by field, and what it lacks. */
export function Difference({ difference, form, ticked, said }: Props) {
  const { rows, fuel, vanished, earlier } = difference;
  const of = (verdict: RowDifference["verdict"]) => rows.filter((row) => row.verdict === verdict);
  const changed = rows.filter(({ verdict, instead }) => verdict === "changed" || instead.length > 0);
  const alone = rows.filter(({ mayJoin }) => mayJoin.length > 0);
  const added = rows.filter(
    ({ verdict, instead, mayJoin }) =>
      ["new", "joined", "no-load"].includes(verdict) && instead.length === 0 && mayJoin.length === 0,
  );
  return (
    <section className={styles.difference} aria-labelledby="difference">
      <h2 id="difference">What it changes</h2>
      <p>
        {earlier.length > 0 ? (
          <Earlier earlier={earlier} />
        ) : vanished.length > 0 ? (
          "Loads of these days are here already."
        ) : (
          "It was laid beside the loads that are here."
        )}{" "}
        Its rows: {countsInWords(difference)}. Nothing is doubled, and what was known before stays on record.
      </p>
      {of("doubtful").length === 0 ? null : (
        <>
          <h3>Unclear: an earlier load, or another one?</h3>
          {of("doubtful").map((row) => (
            <DoubtfulRow key={`${row.sheet} ${row.row}`} row={row} form={form} />
          ))}
          <AskedLater rows={difference.counts.doubtful - of("doubtful").length} />
        </>
      )}
      {alone.length === 0 ? null : (
        <>
          <h3>Weighed alone: the dried weight of which loads?</h3>
          {alone.map((row) => (
            <DriedAlone key={`${row.sheet} ${row.row}`} row={row} form={form} />
          ))}
          <AskedLater rows={difference.counts.noLoad - alone.length} which=" whose load may be here" />
        </>
      )}
      <Rows title="Changed" rows={changed} open={OPEN} />
      {fuel.length === 0 ? null : (
        <>
          <h3>Fuel</h3>
          <ul className={styles.rows}>
            {fuel.slice(0, OPEN).map((one) => (
              <li key={`${one.day} ${one.fuel} ${JSON.stringify(one.was)}`}>{fuelDifferenceInWords(one)}</li>
            ))}
          </ul>
          {fuel.length > OPEN ? <p>{counted(fuel.length - OPEN, "more line")} of fuel change.</p> : null}
        </>
      )}
      <Rows title="New here" rows={added} open={0} />
      <NotSentAgain
        vanished={vanished}
        changes={changed.length > 0 || fuel.length > 0}
        form={form}
        ticked={ticked}
        said={said}
      />
    </section>
  );
}

/** What would make a page too heavy for a phone is asked next. */
function AskedLater({ rows, which = "" }: { readonly rows: number; readonly which?: string }) {
  if (rows <= 0) return null;
  return (
    <p>
      {counted(rows, "more row waits", "more rows wait")}; those{which} will be asked about once these are answered.
    </p>
  );
}

function Earlier({ earlier }: { readonly earlier: Told["earlier"] }) {
  const shown = earlier.slice(0, 3);
  return (
    <>
      {shown.map(({ file, code }, at) => (
        <span key={file}>
          {at === 0 ? "" : at === shown.length - 1 && earlier.length === shown.length ? " and " : ", "}
          <a href={`/files/${file}`}>{code}</a>
        </span>
      ))}
      {earlier.length > shown.length ? ` and ${counted(earlier.length - shown.length, "more log")}` : ""} brought loads
      of these days before.
    </>
  );
}

function Rows({
  title,
  rows,
  open,
}: {
  readonly title: string;
  readonly rows: readonly RowDifference[];
  readonly open: number;
}) {
  if (rows.length === 0) return null;
  const rest = rows.slice(open);
  return (
    <>
      {open === 0 ? null : (
        <>
          <h3>{title}</h3>
          <RowList rows={rows.slice(0, open)} />
        </>
      )}
      {rest.length === 0 ? null : (
        <details>
          <summary>
            {open === 0 ? title : "More that changed"}: {counted(rest.length, "row")}
          </summary>
          <RowList rows={rest} />
        </details>
      )}
    </>
  );
}

function RowList({ rows }: { readonly rows: readonly RowDifference[] }) {
  return (
    <ul className={styles.rows}>
      {rows.map((row) => (
        <li key={`${row.sheet} ${row.row}`}>
          <span className={styles.row}>
            <bdi>{row.sheet}</bdi>, row {row.row}
          </span>
          <bdi>{row.batch === null ? "" : batchInWords(row.batch)}</bdi>
          {rowDifferenceInWords(row) === "" ? null : <span className={styles.change}>{rowDifferenceInWords(row)}</span>}
        </li>
      ))}
    </ul>
  );
}
