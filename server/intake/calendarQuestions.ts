import type { FileQuestion, Hints, RowOnGrid } from "#server/terms/row";
import { readClock } from "./values/clocks";
import { DAWN } from "./values/dawnClock";

const FEWEST_STARTS = 3;
/** Hours that count from dawn begin at one; in hours from midnight these are the middle of the night. */
const NIGHT = 5 * 60;
const NOON = 12 * 60;

/**
 * Whether the clock of a log counts from dawn: asked when every start lies before six, or when most lie before five and
 * none after noon. Nobody dries by night only, and whoever does says so once.
 */
export function clockQuestion(rows: readonly RowOnGrid[], sheet: string, hints: Hints): FileQuestion[] {
  if (hints.answers?.clock !== undefined || !couldBeDawn(rows, startOf)) return [];
  // now that it is worth it, leave out the times that say themselves from where they count
  return couldBeDawn(rows, (row) => (saysItsClock(row) ? null : startOf(row)))
    ? [{ code: "clock-of-log", sheet, column: null, choices: ["dawn", "midnight"] }]
    : [];
}

function startOf({ batch }: RowOnGrid): number | null {
  return batch === null ? null : batch.startMinute;
}

function couldBeDawn(rows: readonly RowOnGrid[], startOf: (row: RowOnGrid) => number | null): boolean {
  let all = 0;
  let beforeDawn = 0;
  let byNight = 0;
  for (const row of rows) {
    const start = startOf(row);
    if (start === null) continue;
    if (start >= NOON) return false;
    all++;
    if (start < DAWN) beforeDawn++;
    if (start < NIGHT) byNight++;
  }
  return all >= FEWEST_STARTS && (beforeDawn === all || byNight * 2 > all);
}

function saysItsClock({ cells }: RowOnGrid): boolean {
  for (const { meaning, text } of cells) {
    if (meaning !== "start") continue;
    const read = readClock({ text, kind: "text", value: null });
    return read.kind === "clock" && !read.isOpen;
  }
  return false;
}

const ERA_YEAR = /(?:^|\D)2[4-9]\d{2}(?!\d)/;

/** Whether the years of a log are of the Buddhist era: asked once when days fit its month as such. */
export function yearsQuestion(rows: readonly RowOnGrid[], sheet: string, hints: Hints): FileQuestion[] {
  if (hints.answers?.years !== undefined) return [];
  const asks = rows.some(({ reasons }) =>
    reasons.some(
      ({ code, text, choices }) => code === "day-outside-period" && choices?.some(({ put }) => isOfEra(text, put)),
    ),
  );
  return asks ? [{ code: "years-of-log", sheet, column: null, choices: ["buddhist", "common"] }] : [];
}

/** The text says a year of four figures that runs 543 ahead of what is offered, or of two that runs 43 ahead. */
function isOfEra(text: string, put: string): boolean {
  const inTwo = String((Number(put.slice(2, 4)) + 43) % 100).padStart(2, "0");
  return ERA_YEAR.test(text) || new RegExp(`(?:^|\\D)(?:20)?${inTwo}(?!\\d)`).test(text);
}
