import type { Cell } from "#server/terms/grid";
import { LONGEST_VALUE, plainDigits } from "./decimals";
import { isAbsent } from "./words";

const CLOCK =
  /^(\d{1,2})\s*(?:(?:h|H|:|\.|u)\s*(\d{2})?)?(?::[0-5]\d(?:\.\d+)?)?\s*(?:hrs?|min|mn)?\s*(a\.?m\.?|p\.?m\.?)?$/i;
const FOUR = /^([01]\d|2[0-3])([0-5]\d)\s*(?:h|hrs?)?$/i;
const DATED = /^(?:\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}[ T]+)(.+)$/;

/** Minutes after midnight; null when the cell is empty; undefined when it says something that is no time of day. */
export function readClock(cell: Cell): number | null | undefined {
  if (cell.value !== null && cell.kind !== "error" && cell.kind !== "true-false") {
    if (cell.kind === "number" && cell.value >= 1) return ofText(cell.text);
    const share = cell.value - Math.floor(cell.value);
    return Math.round(share * 1440) % 1440;
  }
  if (cell.text.length > LONGEST_VALUE) return undefined;
  const text = plainDigits(cell.text);
  if (isAbsent(text)) return null;
  return ofText(DATED.exec(text)?.[1] ?? text);
}

function ofText(text: string): number | undefined {
  const four = FOUR.exec(text);
  if (four) return Number(four[1]) * 60 + Number(four[2]);
  const found = CLOCK.exec(text);
  if (!found) return undefined;
  const half = found[3]?.[0]?.toLowerCase();
  let hour = Number(found[1]);
  const minute = Number(found[2] ?? 0);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (half === "p" ? 12 : 0);
  }
  return hour < 24 && minute < 60 ? hour * 60 + minute : undefined;
}

/** Longest that a load may last over midnight, in minutes: common practice. */
export const LONGEST_OVER_MIDNIGHT = 8 * 60;

/**
 * Minutes from start to end. An end before the start is past midnight when the load then lasts no more than eight hours.
 *
 * minutesBetween(23:20, 00:40) // 80, over midnight
 */
export function minutesBetween(start: number, end: number): { minutes: number; overMidnight: boolean } | null {
  if (end > start) return { minutes: end - start, overMidnight: false };
  const minutes = end + 1440 - start;
  return end < start && minutes <= LONGEST_OVER_MIDNIGHT ? { minutes, overMidnight: true } : null;
}
