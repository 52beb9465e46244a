import type { Fault } from "#server/terms/fault";
import { holds, type ProblemCode } from "#server/terms/problem";
import type { Reading, RowRead } from "#server/terms/row";
import { AllOfAKind } from "../../_parts/AllOfAKind";
import { FaultQuestions } from "../../_parts/FaultQuestions";
import { FileQuestions } from "../../_parts/FileQuestions";
import { Complaints, Second, Submit, type Wrong } from "../../_parts/Form";
import form from "../../_parts/Form.module.css";
import { HeldRow } from "../../_parts/HeldRow";
import { MonthChoice } from "../../_parts/MonthChoice";
import { PickHeadings } from "../../_parts/PickHeadings";
import { usualOf } from "../../_words/choices";
import { counted } from "../../_words/days";
import { FAULT_SETTLES } from "../../_words/faults";
import { kindsOf } from "../../_words/kinds";
import { SETTLED_BY } from "../../_words/questions";

/** So many rows at once: a page that a phone can hold. The rest follow once these are answered. */
const MOST = 40;

/** The form's name, for answers that stand elsewhere on the page. */
export const ANSWERS = "answers";

interface Props {
  readonly file: string;
  readonly month: string | null;
  /** answers given before, as the address carries them */
  readonly said: string;
  readonly reading: Reading;
  readonly counted: boolean;
  /** rows are asked about above, beside what the log changes */
  readonly alsoAbove: boolean;
  readonly wrong: Wrong;
}

/** What a yes to one of these faults would settle is not asked row by row as well. */
function settledBy(faults: readonly Fault[]): (row: RowRead) => boolean {
  const settles = new Map<string, ProblemCode[]>();
  for (const { code, sheet, rows, answers } of faults)
    for (const row of answers === null ? [] : rows) {
      const place = `${sheet}!${row}`;
      settles.set(place, [...(settles.get(place) ?? []), ...(FAULT_SETTLES[code] ?? [])]);
    }
  return ({ sheet, row, reasons }) => {
    const codes = settles.get(`${sheet}!${row}`);
    return codes !== undefined && reasons.every(({ code }) => !holds(code) || codes.includes(code));
  };
}

/** Questions and held rows with their answers as one form, which looks again or sends. */
export function WhatNeedsYou({ file, month, said, reading, counted: before, alsoAbove, wrong }: Props) {
  const asked = reading.questions.filter(({ code }) => code !== "no-table");
  const settled = asked.flatMap(({ code }) => SETTLED_BY[code] ?? []);
  const held = reading.rows.filter(({ fate }) => fate === "held");
  const faults = reading.look?.faults ?? [];
  const byFaults = settledBy(faults);
  const alone = held.filter((row) => !row.reasons.some(({ code }) => settled.includes(code)) && !byFaults(row));
  const lost = reading.questions.some(({ code }) => code === "no-table");
  const open = asked.length > 0 || alone.length > 0 || faults.length > 0 || lost || alsoAbove;
  const usual = usualOf(reading.rows);
  return (
    <form id={ANSWERS} method="post" action={`/send/${file}/answers`}>
      <h2 id="needs">{open ? "What needs you" : "Nothing needs you"}</h2>
      <Complaints wrong={wrong} />
      {open ? (
        <p>Answer what you can. Nothing waits: rows without an answer are kept, and can be answered later.</p>
      ) : null}
      {alsoAbove ? (
        <p>
          Some rows are asked about above, under <a href="#difference">“What it changes”</a>.
        </p>
      ) : null}
      <input type="hidden" name="said" value={said} />
      <input type="hidden" name="period" value={month ?? ""} />
      {asked.some(({ code }) => code === "period") ? (
        <MonthChoice
          today={new Date().toISOString().slice(0, 10)}
          chosen=""
          year=""
          label="The dates do not say their year. Which month is the log for?"
        />
      ) : null}
      {lost ? <PickHeadings reading={reading} /> : null}
      <FileQuestions reading={reading} />
      <FaultQuestions faults={faults} />
      {kindsOf(alone).map((kind) => (
        <AllOfAKind key={kind.key} kind={kind} usual={usual} />
      ))}
      {alone.slice(0, MOST).map((row) => (
        <HeldRow key={`${row.sheet} ${row.row}`} row={row} reading={reading} usual={usual} />
      ))}
      {alone.length > MOST ? (
        <p>{counted(alone.length - MOST, "more row")} will be asked once these are answered.</p>
      ) : null}
      <p className={form.buttons}>
        <Second name="next" value="look">
          {open ? "Look again with these answers" : "Look again with what was changed"}
        </Second>
        <Submit name="next" value="send">
          {before ? "Count it again" : held.length === 0 ? "Send" : "Send as it is now"}
        </Submit>
      </p>
    </form>
  );
}
