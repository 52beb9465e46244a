import type { FileQuestion, Reading } from "#server/terms/row";
import { counted } from "../_words/days";
import { CHOOSABLE, MEANING_WORDS } from "../_words/meanings";
import { outcomeInWords, outcomeOf } from "../_words/outcomes";
import { answerInWords, exampleFor, questionInWords, SETTLED_BY } from "../_words/questions";
import { Choice } from "./Choice";
import styles from "./Form.module.css";

/** Each question about the whole log or a column, once, with what hangs on it. */
export function FileQuestions({ reading }: { readonly reading: Reading }) {
  return reading.questions
    .filter(({ code }) => code !== "no-table" && code !== "period")
    .map((question) => (
      <fieldset key={keyOf(question)} className={styles.choices}>
        <legend>{questionInWords(question, headingOf(reading, question))}</legend>
        <p className={styles.hint}>{waiting(reading, question)}</p>
        <Controls reading={reading} question={question} />
      </fieldset>
    ));
}

function Controls({ reading, question }: { readonly reading: Reading; readonly question: FileQuestion }) {
  const { code, sheet, column, choices } = question;
  const example = exampleFor(question, reading.rows);
  if (code === "column-meaning") {
    const others = CHOOSABLE.filter((meaning) => !choices.includes(meaning));
    return (
      <select name={`meaning:${sheet}!${column}`} className={styles.control} aria-label={`What column ${column} holds`}>
        <option value="">I do not know yet</option>
        {[...choices, ...others].map((choice) => (
          <option key={choice} value={choice}>
            {withOutcome(
              reading,
              question,
              choice,
              choice in MEANING_WORDS ? MEANING_WORDS[choice as keyof typeof MEANING_WORDS] : choice,
            )}
          </option>
        ))}
        <option value="ignore">nothing that needs to be read</option>
      </select>
    );
  }
  const name = fieldOf(question);
  return (
    <div>
      {choices.map((choice) => (
        <Choice key={choice} name={name} value={choice} follows={followsFrom(reading, question, choice)}>
          {answerInWords(code, choice, example)}
        </Choice>
      ))}
      <Choice name={name} value="" checked>
        I do not know yet
      </Choice>
      {code === "day-of-sheet" ? (
        <input
          type="date"
          name={`ownDay:${sheet}`}
          className={styles.control}
          aria-label={`The day of the sheet ${sheet}`}
        />
      ) : null}
    </div>
  );
}

/** What the whole log would come to with a choice. */
function followsFrom({ look }: Reading, question: FileQuestion, choice: string): string {
  const follows = outcomeInWords(outcomeOf(look?.outcomes ?? [], question, choice));
  return follows.charAt(0).toUpperCase() + follows.slice(1);
}

/** A choice of a list with what follows from it. */
function withOutcome(reading: Reading, question: FileQuestion, choice: string, says: string): string {
  const follows = outcomeInWords(outcomeOf(reading.look?.outcomes ?? [], question, choice));
  return follows === "" ? says : `${says} (${follows})`;
}

/** The field that answers a question of plain choices. */
function fieldOf({ code, sheet, column }: FileQuestion): string {
  if (code === "day-order") return "dayOrder";
  if (code === "decimal-mark") return "decimalMark";
  if (code === "clock-of-log") return "clock";
  if (code === "years-of-log") return "years";
  return code === "day-of-sheet" ? `day:${sheet}` : `unit:${sheet}!${column}`;
}

function headingOf(reading: Reading, { sheet, column }: FileQuestion): string {
  const columns = reading.tables.filter((table) => table.sheet === sheet).flatMap((table) => table.columns);
  return columns.find((one) => one.column === column)?.heading ?? "";
}

function waiting(reading: Reading, { code }: FileQuestion): string {
  const codes = SETTLED_BY[code] ?? [];
  const rows = reading.rows.filter(
    ({ fate, reasons }) => fate === "held" && reasons.some((reason) => codes.includes(reason.code)),
  ).length;
  return rows === 0
    ? "Asked once for the whole log."
    : `Asked once; ${counted(rows, "row waits", "rows wait")} for it.`;
}

function keyOf({ code, sheet, column }: FileQuestion): string {
  return `${code} ${sheet} ${column}`;
}
