import { laidOver } from "#server/terms/answers";
import type { Grid } from "#server/terms/grid";
import type { Outcome } from "#server/terms/look";
import { type Answers, type FileQuestion, type Hints, MEANINGS, type Reading } from "#server/terms/row";
import { kgOf, loadsOf, middle, pooled } from "../faults/loads";
import { readLog } from "../readLog";

/** Each choice is a reading of its own: beyond so many rows they would take longer than somebody waits. */
const MOST_ROWS = 3000;
const MOST_READINGS = 16;

/** What the log would come to with each choice of each of its questions; empty for a long log. */
export function outcomesOf(grid: Grid, reading: Reading, hints: Hints): Outcome[] {
  if (reading.rows.length > MOST_ROWS) return [];
  const choices = reading.questions.flatMap((question) => question.choices.map((choice) => ({ question, choice })));
  return choices.slice(0, MOST_READINGS).flatMap(({ question, choice }) => {
    const answers = answerOf(question, choice);
    if (answers === null) return [];
    return [outcome(question, choice, readLog(grid, { ...hints, answers: laidOver(hints.answers ?? null, answers) }))];
  });
}

/** One choice of a question as an answer; null for a question that has no ready choices. */
export function answerOf({ code, sheet, column }: FileQuestion, choice: string): Answers | null {
  const place = `${sheet}!${column}`;
  if (code === "day-order") return choice === "dmy" || choice === "mdy" ? { dayOrder: choice } : null;
  if (code === "decimal-mark") return choice === "." || choice === "," ? { decimalMark: choice } : null;
  if (code === "clock-of-log") return choice === "dawn" || choice === "midnight" ? { clock: choice } : null;
  if (code === "years-of-log") return choice === "buddhist" || choice === "common" ? { years: choice } : null;
  if (code === "column-unit") return { units: { [place]: choice } };
  if (code === "column-meaning") {
    const meaning = MEANINGS.find((one) => one === choice);
    return meaning === undefined ? null : { meanings: { [place]: meaning } };
  }
  return code === "day-of-sheet" ? { days: { [sheet]: choice } } : null;
}

function outcome({ code, sheet, column }: FileQuestion, choice: string, reading: Reading): Outcome {
  const counting = reading.rows.filter(({ fate }) => fate === "counted");
  const loads = loadsOf(counting);
  const days = counting.flatMap(({ batch }) => batch?.day ?? []).sort();
  return {
    code,
    sheet,
    column,
    choice,
    counted: reading.counts.counted,
    held: reading.counts.held,
    dryYield: pooled(loads.map(kgOf)),
    usualFreshKg: middle(counting.flatMap(({ batch }) => batch?.fresh?.value ?? [])),
    from: days[0] ?? null,
    to: days[days.length - 1] ?? null,
  };
}
