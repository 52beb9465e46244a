import { ANSWER_KINDS, type SignalShown } from "#server/terms/signalTold";
import { Choice } from "../../_parts/Choice";
import { Complaints, Field, Submit } from "../../_parts/Form";
import form from "../../_parts/Form.module.css";
import { counted, dayInWords } from "../../_words/days";
import { ANSWER_WORDS } from "../../_words/signalAnswers";
import { stepInWords } from "../../_words/signalStory";
import type { Note } from "../../note";
import { isSameSeries, lastOfEach } from "../sortedOut";
import { alsoName, LONGEST_REASON } from "./answerOf";
import styles from "./page.module.css";

interface Props {
  readonly one: SignalShown;
  readonly note: Note;
}

/** Four answers, each with what it will do; the days that one needs; and always why. */
export function AnswerForm({ one: { signal, answers, others }, note: { typed, wrong } }: Props) {
  const first = signal.since ?? signal.sinceFrom;
  const open = others.filter(({ answer, state }) => answer === null && state === "stands");
  const bySeries = lastOfEach(open).map((last) => ({
    last,
    ids: open.flatMap(({ id, ...one }) => (isSameSeries(one, last) ? [id] : [])).join(" "),
  }));
  return (
    <form method="post" action={`/signals/${signal.id}/answer`} className={styles.answer} id="answer">
      <h3>{answers.length === 0 ? "What was found out about it?" : "Has something else been found out?"}</h3>
      <Complaints wrong={wrong} />
      <fieldset className={`${form.choices} ${styles.kinds}`} id="kind">
        <legend>Answer</legend>
        {ANSWER_KINDS.map((kind) => (
          <Choice key={kind} name="kind" value={kind} checked={typed.kind === kind}>
            <strong>{ANSWER_WORDS[kind].name}</strong>
            <span className={styles.does}>{ANSWER_WORDS[kind].does}</span>
          </Choice>
        ))}
      </fieldset>
      <div className={styles.needsFrom}>
        <Field
          id="from"
          label="First day"
          hint="Of the new level, or of the cause that passes. The likeliest day stands there already."
          wrong={wrong.from}
        >
          {(given) => <input {...given} type="date" defaultValue={typed.from ?? first} />}
        </Field>
      </div>
      <div className={styles.needsTo}>
        <Field id="to" label="Last day" hint="Of the cause that passes." wrong={wrong.to}>
          {(given) => <input {...given} type="date" defaultValue={typed.to ?? signal.raisedOn} />}
        </Field>
      </div>
      <div className={styles.needsDays}>
        <Field
          id="days"
          label="Days whose record is wrong"
          hint="Each as 2031-03-31, with a space between; several in a row as 2031-03-01 to 2031-03-09."
          wrong={wrong.days}
        >
          {(given) => <input {...given} defaultValue={typed.days ?? `${first} to ${signal.raisedOn}`} />}
        </Field>
      </div>
      {open.length === 0 ? null : (
        <fieldset className={form.choices}>
          <legend>Does the answer hold for these as well?</legend>
          {bySeries.map(({ last, ids }) => {
            const name = alsoName(`${last.method} ${last.measure}`);
            const times = ids.split(" ").length;
            return (
              <Choice key={name} kind="checkbox" name={name} value={ids} checked={typed[name] !== undefined}>
                {stepInWords(last)}, told on {dayInWords(last.raisedOn)}
                {times === 1 ? "" : ` and ${counted(times - 1, "time")} before`}
              </Choice>
            );
          })}
        </fieldset>
      )}
      <Field
        id="reason"
        label="Why"
        hint="What was seen, asked and found, and by whom. It stays on record with your name."
        wrong={wrong.reason}
      >
        {(given) => <textarea {...given} rows={3} defaultValue={typed.reason} required maxLength={LONGEST_REASON} />}
      </Field>
      <p>
        <Submit>Answer it</Submit>
      </p>
      <p className={styles.quiet}>An answer can be followed by another; none is taken away.</p>
    </form>
  );
}
