import type { ReactNode } from "react";
import type { Slip } from "#server/terms/slip";
import { counted, listInWords, momentInWords, monthInWords } from "../_words/days";
import { valueInWords } from "../_words/figures";
import { reasonInWords } from "../_words/problems";
import { slipLine } from "../_words/slip";
import { totalsInWords } from "../_words/understood";
import { Account } from "./Account";
import styles from "./SlipPaper.module.css";

interface Props {
  readonly slip: Slip;
  readonly name: string | null;
  /** the site's name; null for a log of the programme */
  readonly site: string | null;
  readonly mayAnswer: boolean;
}

/** The sending slip as it prints: proof that a log arrived, and an account of every row of it. */
export function SlipPaper({ slip, name, site, mayAnswer }: Props) {
  const { rows, batches, held } = slip;
  return (
    <article className={styles.paper}>
      <header>
        <p className={styles.kind}>Sending slip</p>
        <h1 className={styles.code}>{slip.code}</h1>
      </header>
      <dl className={styles.facts}>
        <Fact name="Log">{name === null ? "name erased" : <bdi>{name}</bdi>}</Fact>
        <Fact name="Site">{site ?? slip.site ?? "several sites of the programme"}</Fact>
        <Fact name="Arrived">{momentInWords(slip.arrivedAt)}</Fact>
        <Fact name="Months">{slip.months.length === 0 ? "none" : listInWords(slip.months.map(monthInWords))}</Fact>
        <Fact name="Fresh in">{slip.freshKg === null ? "no weight" : valueInWords(slip.freshKg, "kg")}</Fact>
        <Fact name="Dried out">
          {slip.driedKg === null ? "no weight yet" : valueInWords(slip.driedKg, "kg")}
          {slip.driedToCome === 0
            ? ""
            : `; ${counted(slip.driedToCome, "dried weight is", "dried weights are")} still to come`}
        </Fact>
      </dl>
      <Account rows={rows} />
      <p>{batchesInWords(batches)}</p>
      {held.length === 0 ? null : (
        <section>
          <h2>{counted(rows.held, "row needs", "rows need")} an answer</h2>
          <ul className={styles.held}>
            {held.map((row) => (
              <li key={`${row.sheet} ${row.row} ${row.column} ${row.code}`}>
                Row {row.row}
                {row.column === null ? "" : `, column ${row.column}`}: {reasonInWords(row)}
              </li>
            ))}
          </ul>
          <p>
            They are kept and do not count yet.{" "}
            {mayAnswer ? <a href={`/send/${slip.file}#needs`}>Answer them</a> : null}
          </p>
        </section>
      )}
      {slip.open === undefined || slip.open === 0 ? null : (
        <p>
          {counted(slip.open, "question about the log as a whole is", "questions about the log as a whole are")} open.{" "}
          {mayAnswer ? <a href={`/send/${slip.file}#needs`}>Look at what it asks</a> : null}
        </p>
      )}
      {totalsInWords(slip.totals).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <section className={styles.line}>
        <h2>In one line, for a message</h2>
        <p>{slipLine(slip)}</p>
      </section>
      <dl className={styles.proof}>
        <Fact name="Record in the ledger">{slip.ledgerIndex}</Fact>
        <Fact name="Bytes">{slip.bytes.toLocaleString("en-GB")}</Fact>
        <Fact name="SHA-256 of the file">
          <code>{slip.sha256}</code>
        </Fact>
      </dl>
    </article>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function batchesInWords({ new: added, changed, same, joined, vanished, withdrawn = 0 }: Slip["batches"]): string {
  const parts = [
    [added, "new"],
    [changed, "changed"],
    [same, "as before"],
    [joined, "joined by their dried weight"],
    [withdrawn, "withdrawn, because this log lacks them"],
    [vanished, "of an earlier log not in this one, and kept"],
  ] as const;
  const said = parts.flatMap(([count, how]) => (count === 0 ? [] : [`${count} ${how}`]));
  return said.length === 0 ? "It brought no batches." : `Batches: ${listInWords(said)}.`;
}
