import type { Cell } from "#server/terms/grid";
import { readDawnClock } from "./dawnClock";
import { LONGEST_VALUE, plainDigits } from "./decimals";
import { isAbsent } from "./words";

const CLOCK =
  /^(\d{1,2})\s*(?:(?:h|H|:|\.|u)\s*(\d{2})?)?(?::[0-5]\d(?:\.\d+)?)?\s*(?:hrs?|min|mn)?\s*(a\.?m\.?|p\.?m\.?)?$/i;
const FOUR = /^([01]\d|2[0-3])([0-5]\d)\s*(?:h|hrs?)?$/i;
const DATED = /^(?:\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}[ T]+)(.+)$/;

/** A time of day in minutes after midnight; `isOpen` where it does not say itself from where its hours count. */
export type ClockRead =
  | { readonly kind: "clock"; readonly minute: number; readonly isOpen: boolean }
  | { readonly kind: "absent" }
  | { readonly kind: "problem"; readonly puts: readonly string[] };

const UNREAD: ClockRead = { kind: "problem", puts: [] };

/** The time of day that a cell says. */
export function readClock(cell: Cell): ClockRead {
  if (cell.value !== null && cell.kind !== "error" && cell.kind !== "true-false") {
    if (cell.kind === "number" && cell.value >= 1) return ofText(cell.text);
    const share = cell.value - Math.floor(cell.value);
    return { kind: "clock", minute: Math.round(share * 1440) % 1440, isOpen: true };
  }
  if (cell.text.length > LONGEST_VALUE) return UNREAD;
  const text = plainDigits(cell.text);
  if (isAbsent(text)) return { kind: "absent" };
  return ofText(DATED.exec(text)?.[1] ?? text);
}

function ofText(text: string): ClockRead {
  const four = FOUR.exec(text);
  if (four) return { kind: "clock", minute: Number(four[1]) * 60 + Number(four[2]), isOpen: true };
  const found = CLOCK.exec(text);
  if (!found) return ofWords(text);
  const half = found[3]?.[0]?.toLowerCase();
  let hour = Number(found[1]);
  const minute = Number(found[2] ?? 0);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return UNREAD;
    hour = (hour % 12) + (half === "p" ? 12 : 0);
  }
  if (hour >= 24 || minute >= 60) return UNREAD;
  return { kind: "clock", minute: hour * 60 + minute, isOpen: half === undefined };
}

function ofWords(text: string): ClockRead {
  const read = readDawnClock(text);
  if (read === null) return UNREAD;
  if ("minute" in read) return { kind: "clock", minute: read.minute, isOpen: false };
  return { kind: "problem", puts: read.either.map(clockText) };
}

/** "08:30" */
function clockText(minute: number): string {
  const two = (number: number) => String(number).padStart(2, "0");
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
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
