import type { Cell, GridRow } from "#server/terms/grid";
import { readDay } from "../values/days";
import { plainDigits, readNumber } from "../values/decimals";

const ENOUGH = 200;
const CLOCK = /^\d{1,2}(?::\d{2}(?::\d{2})?|[hH]\d{0,2})$/;

/** True when some cell of the column says anything. */
export function isUsed(rows: readonly GridRow[], index: number): boolean {
  return rows.some((row) => row.at(index).text.trim() !== "");
}

/** True when four in five of a column's first cells look like what is asked. */
export function looksLike(rows: readonly GridRow[], index: number, what: "times" | "numbers" | "dates"): boolean {
  let seen = 0;
  let like = 0;
  for (const row of rows) {
    const cell = row.at(index);
    if (cell.text.trim() === "") continue;
    seen++;
    if (isLike(cell, what)) like++;
    if (seen >= ENOUGH) break;
  }
  return seen > 0 && like >= seen * 0.8;
}

function isLike(cell: Cell, what: "times" | "numbers" | "dates"): boolean {
  if (what === "times") return cell.kind === "time" || CLOCK.test(plainDigits(cell.text));
  if (what === "numbers")
    return cell.kind === "number" || /^[-~]?\d/.test(cell.text.trim()) || readNumber(cell.text).kind !== "none";
  const { kind } = readDay(cell);
  return kind === "day" || kind === "parts" || kind === "named" || kind === "era";
}

/** True when a column counts its rows: each number is one more than the one above, or starts again at one. */
export function countsUp(rows: readonly GridRow[], index: number): boolean {
  let above: number | null = null;
  let steps = 0;
  let up = 0;
  for (const row of rows.slice(0, ENOUGH)) {
    const read = readNumber(row.at(index).text);
    if (read.kind !== "number") continue;
    const value = Number(read.exact);
    if (above !== null) {
      steps++;
      if (value === above + 1 || value === 1) up++;
    }
    above = value;
  }
  return steps >= 2 && up >= steps * 0.8;
}
