import type { Reading } from "#server/terms/row";
import { FileQuestions } from "../../_parts/FileQuestions";
import { Complaints, Second, Submit, type Wrong } from "../../_parts/Form";
import form from "../../_parts/Form.module.css";
import { HeldRow } from "../../_parts/HeldRow";
import { MonthChoice } from "../../_parts/MonthChoice";
import { counted } from "../../_words/days";
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
  readonly wrong: Wrong;
}

/** Questions and held rows with their answers as one form, which looks again or sends. */
export function WhatNeedsYou({ file, month, said, reading, counted: before, wrong }: Props) {
  const asked = reading.questions.filter(({ code }) => code !== "no-table");
  const settled = asked.flatMap(({ code }) => SETTLED_BY[code] ?? []);
  const held = reading.rows.filter(({ fate }) => fate === "held");
  const alone = held.filter(({ reasons }) => !reasons.some(({ code }) => settled.includes(code)));
  const open = asked.length > 0 || alone.length > 0;
  return (
    <form id={ANSWERS} method="post" action={`/send/${file}/answers`}>
      <h2 id="needs">{open ? "What needs you" : "Nothing needs you"}</h2>
      <Complaints wrong={wrong} />
      {open ? (
        <p>Answer what you can. Nothing waits: rows without an answer are kept, and can be answered later.</p>
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
      <FileQuestions reading={reading} />
      {alone.slice(0, MOST).map((row) => (
        <HeldRow key={`${row.sheet} ${row.row}`} row={row} reading={reading} />
      ))}
      {alone.length > MOST ? (
        <p>{counted(alone.length - MOST, "more row")} will be asked once these are answered.</p>
      ) : null}
      <p className={form.buttons}>
        {open ? (
          <Second name="next" value="look">
            Look again with these answers
          </Second>
        ) : null}
        <Submit name="next" value="send">
          {before ? "Count it again" : held.length === 0 ? "Send" : "Send as it is now"}
        </Submit>
      </p>
    </form>
  );
}
