import { laidOver } from "#server/terms/answers";
import type { Grid } from "#server/terms/grid";
import type { Outcome } from "#server/terms/look";
import { type Answers, type FileQuestion, type Hints, MEANINGS, type ReadingOnGrid } from "#server/terms/row";
import { kgOf, loadsOf, middle, pooled } from "../faults/loads";
import { readLog } from "../readLog";

/** Each choice is a reading of its own: beyond so many rows they would take longer than somebody waits. */
const MOST_ROWS = 3000;
const MOST_READINGS = 16;

/**
 * What the log would come to with each choice of each of its questions; empty for a long log.
 *
 * Where several are open, the others are taken as their first choice for the while, else no choice would make any row
 * count; columns without a unit share one.
 */
export function outcomesOf(grid: Grid, reading: ReadingOnGrid, hints: Hints): Outcome[] {
  if (reading.rows.length > MOST_ROWS) return [];
  const choices = reading.questions.flatMap((question) => question.choices.map((choice) => ({ question, choice })));
  return choices.slice(0, MOST_READINGS).flatMap(({ question, choice }) => {
    const answer = answerOf(question, choice);
    if (answer === null) return [];
    const others = reading.questions.filter((one) => one !== question);
    const rest = others.map((one) => answerOf(one, restOf(one, question, choice)));
    const answers = [...rest, answer].reduce<Answers>((all, one) => laidOver(all, one), hints.answers ?? {});
    return [outcome(question, choice, others.length > 0, readLog(grid, { ...hints, answers }))];
  });
}

/** What stands in for the answer to another open question meanwhile. */
function restOf(other: FileQuestion, { code }: FileQuestion, choice: string): string {
  const shared = code === "column-unit" && other.code === code && other.choices.includes(choice);
  return shared ? choice : (other.choices[0] ?? "");
}

/** One choice of a question as an answer; null for a question that has no ready choices. */
export function answerOf({ code, sheet, column }: FileQuestion, choice: string): Answers | null {
  const place = `${sheet}!${column}`;
  if (code === "day-order") return choice === "dmy" || choice === "mdy" ? { dayOrder: choice } : null;
  if (code === "decimal-mark") return choice === "." || choice === "," ? { decimalMark: choice } : null;
  if (code === "clock-of-log") return choice === "dawn" || choice === "midnight" ? { clock: choice } : null;
  if (code === "years-of-log") return choice === "buddhist" || choice === "common" ? { years: choice } : null;
  if (code === "column-unit" && choice !== "") return { units: { [place]: choice } };
  if (code === "column-meaning") {
    const meaning = MEANINGS.find((one) => one === choice);
    return meaning === undefined ? null : { meanings: { [place]: meaning } };
  }
  return code === "day-of-sheet" && choice !== "" ? { days: { [sheet]: choice } } : null;
}

function outcome(
  { code, sheet, column }: FileQuestion,
  choice: string,
  assumes: boolean,
  reading: ReadingOnGrid,
): Outcome {
  const counting = reading.rows.filter(({ fate }) => fate === "counted");
  const loads = loadsOf(counting);
  const days = counting.flatMap(({ batch }) => batch?.day ?? []).sort();
  return {
    code,
    sheet,
    column,
    choice,
    assumes,
    counted: reading.counts.counted,
    held: reading.counts.held,
    dryYield: pooled(loads.map(kgOf)),
    usualFreshKg: middle(counting.flatMap(({ batch }) => batch?.fresh?.value ?? [])),
    from: days[0] ?? null,
    to: days[days.length - 1] ?? null,
  };
}
