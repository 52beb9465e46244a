import type { Cell, GridRow } from "#server/terms/grid";
import type { Hints } from "#server/terms/row";
import { LONGEST_VALUE, type Mark, plainDigits, readNumber } from "../values/decimals";
import { Remembered } from "../values/remembered";
import { NUMBERS } from "./column";
import type { Draft } from "./recogniseColumns";

/**
 * The decimal mark of a column, from the cells that prove it; where none does, what was answered for the log or declared.
 * Null when cells prove both and nobody answered, or when nothing tells: then "3.500" stays open.
 */
export function decimalMark({ meaning, index }: Draft, rows: readonly GridRow[], hints: Hints): Mark | null {
  if (meaning === null || !NUMBERS.has(meaning)) return null;
  const shown = new Remembered(markShown);
  let points = false;
  let commas = false;
  for (const row of rows) {
    const mark = shown.at(row, index);
    if (mark === ".") points = true;
    else if (mark === ",") commas = true;
  }
  const answer = hints.answers?.decimalMark;
  if (points && commas) return answer ?? null;
  if (points) return ".";
  return commas ? "," : (answer ?? hints.decimalMark ?? null);
}

function markShown({ kind, text }: Cell): Mark | null {
  if (kind !== "text" || text.length > LONGEST_VALUE || !(text.includes(".") || text.includes(","))) return null;
  const number = /^[^\d.,]*([\d.,' \u00a0\u202f\u2009]*\d)/.exec(plainDigits(text))?.[1];
  const read = number === undefined ? null : readNumber(number);
  return read?.kind === "number" ? read.shows : null;
}
