import type { GridRow } from "#server/terms/grid";
import type { Hints } from "#server/terms/row";
import { LONGEST_VALUE, type Mark, plainDigits, readNumber } from "../values/decimals";
import { cellAt, NUMBERS } from "./column";
import type { Draft } from "./recogniseColumns";

/** So many different texts of a column are looked at once only. */
const MOST_SEEN = 4000;

/**
 * The decimal mark of a column, from the cells that prove it; where none does, what was answered for the log or declared.
 * Null when cells prove both and nobody answered, or when nothing tells: then "3.500" stays open.
 */
export function decimalMark({ meaning, index }: Draft, rows: readonly GridRow[], hints: Hints): Mark | null {
  if (meaning === null || !NUMBERS.has(meaning)) return null;
  const seen = new Set<string>();
  let points = 0;
  let commas = 0;
  for (const row of rows) {
    const cell = cellAt(row, index);
    if (cell.kind !== "text" || cell.text.length > LONGEST_VALUE || seen.has(cell.text)) continue;
    if (seen.size < MOST_SEEN) seen.add(cell.text);
    if (!cell.text.includes(".") && !cell.text.includes(",")) continue;
    const shows = markShown(cell.text);
    if (shows === ".") points++;
    if (shows === ",") commas++;
  }
  const answer = hints.answers?.decimalMark;
  if (points > 0 && commas > 0) return answer ?? null;
  if (points > 0) return ".";
  return commas > 0 ? "," : (answer ?? hints.decimalMark ?? null);
}

function markShown(text: string): Mark | null {
  const number = /^[^\d.,]*([\d.,' \u00a0\u202f\u2009]*\d)/.exec(plainDigits(text))?.[1];
  const read = number === undefined ? null : readNumber(number);
  return read?.kind === "number" ? read.shows : null;
}
