import { dayNumber, dayOf, isDay } from "#server/terms/days";
import type { Cell } from "#server/terms/grid";
import { plain } from "#server/terms/headings/plain";
import { LONGEST_VALUE, plainDigits } from "./decimals";
import { isAbsent, MONTHS, WEEKDAYS } from "./words";

export type DayOrder = "dmy" | "mdy" | "ymd";

/** A day as a cell writes it, before the order of its parts is known. */
export type DayText =
  | { readonly kind: "day"; readonly day: string; readonly minute: number | null }
  | {
      readonly kind: "parts";
      readonly a: number;
      readonly b: number;
      readonly year: number | null;
      readonly minute: number | null;
    }
  | { readonly kind: "named"; readonly date: number; readonly month: number }
  /** a whole date of a year that may be of the Buddhist era */
  | {
      readonly kind: "era";
      readonly year: number;
      readonly month: number;
      readonly date: number;
      readonly minute: number | null;
    }
  | { readonly kind: "date-only"; readonly date: number }
  | { readonly kind: "absent" }
  | { readonly kind: "none" };

/** Years from here on are of the Buddhist era, also in two figures ("74" gives 2074), or mistyped. */
export const LATE = 2060;
/** Years of the Buddhist era run so far ahead. */
const AHEAD = 543;
const AHEAD_IN_TWO_FIGURES = 43;

/** The year of the common era that a year of the Buddhist era is: 2574 and, in two figures, (20)74 are 2031. */
export function commonYear(year: number): number {
  return year - (year > 2400 ? AHEAD : AHEAD_IN_TWO_FIGURES);
}

const NONE: DayText = { kind: "none" };
const YEAR_FIRST = /^(\d{4})[-/.年](\d{1,2})[-/.月](\d{1,2})日?$/;
const PARTS = /^(\d{1,2})\s*[-/.]\s*(\d{1,2})(?:\s*[-/.]\s*(\d{4}|\d{2}))?\.?$/;
const NAMED = /^(\d{1,2})(?:st|nd|rd|th|er|o|°)?[\s\-/.]*(?:de |of )?(\p{L}{3,})[\s\-/.,]*(?:de )?(\d{4}|\d{2})?$/u;
const NAMED_FIRST = /^(\p{L}{3,})[\s\-/.]*(\d{1,2})(?:st|nd|rd|th)?[\s\-/.,]*(\d{4})?$/u;
const TIME = /[ T]+(\d{1,2}[:h]\d{2})(?::\d{2}(?:\.\d+)?)?\s*(?:Z|[+-]\d{2}:?\d{2})?$/;
const SERIAL = /^[4-6]\d{4}(?:\.\d+)?$/;

/**
 * The day of a serial of the 1900 system. Serial 60 is 29 February 1900, which never was; below it days count one later.
 * ECMA-376 Part 4, 3.17.4.1.
 */
export function dayOfSerial(serial: number): string | null {
  const whole = Math.floor(serial);
  if (whole < 1 || whole === 60 || whole > 2_958_465) return null;
  return dayOf(dayNumber("1899-12-30") + whole + (whole < 60 ? 1 : 0));
}

/** The 1904 system begins 1462 days later; sheets of old Macintosh machines count in it. */
export function serialOf1904(serial: number): number {
  return serial + 1462;
}

/** Takes a cell of a day column apart without deciding what is day and what is month. */
export function readDay(cell: Cell): DayText {
  if (cell.kind === "error") return NONE;
  if (
    cell.value !== null &&
    (cell.kind === "day" || (cell.kind === "number" && cell.value >= 40_000 && cell.value <= 69_999))
  ) {
    return ofSerial(cell.value);
  }
  if (cell.kind === "time" || cell.text.length > LONGEST_VALUE) return NONE;
  const text = plainDigits(cell.text);
  if (isAbsent(text)) return { kind: "absent" };
  const plainly = yearFirst(text, null);
  if (plainly !== null) return plainly;
  if (SERIAL.test(text)) return ofSerial(Number(text));
  const time = TIME.exec(text);
  const minute = time ? minuteOf(time[1] ?? "") : null;
  const date = withoutWeekday(time ? text.slice(0, time.index) : text);
  return datePart(date, minute);
}

function yearFirst(text: string, minute: number | null): DayText | null {
  const [, year, month, date] = YEAR_FIRST.exec(text) ?? [];
  return year === undefined ? null : calendarDay(Number(year), Number(month), Number(date), minute);
}

function datePart(text: string, minute: number | null): DayText {
  const whole = yearFirst(text, minute);
  if (whole !== null) return whole;
  const eight = /^(20\d{2})(\d{2})(\d{2})$/.exec(text);
  if (eight) return calendarDay(Number(eight[1]), Number(eight[2]), Number(eight[3]), minute);
  const parts = PARTS.exec(text);
  if (parts) {
    const year = parts[3] === undefined ? null : fullYear(parts[3]);
    return { kind: "parts", a: Number(parts[1]), b: Number(parts[2]), year, minute };
  }
  if (/^\d{1,2}(?:st|nd|rd|th|er)?$/.test(text)) {
    const date = Number.parseInt(text, 10);
    return date >= 1 && date <= 31 ? { kind: "date-only", date } : NONE;
  }
  return namedMonth(text.toLowerCase(), minute);
}

function namedMonth(text: string, minute: number | null): DayText {
  const first = NAMED.exec(text);
  const second = first ? null : NAMED_FIRST.exec(text);
  const month = MONTHS.get(plain(first?.[2] ?? second?.[1] ?? ""));
  const date = Number(first?.[1] ?? second?.[2]);
  if (month === undefined || date < 1 || date > 31) return NONE;
  const year = first?.[3] ?? second?.[3];
  return year === undefined ? { kind: "named", date, month } : calendarDay(fullYear(year), month, date, minute);
}

function ofSerial(serial: number): DayText {
  const day = dayOfSerial(serial);
  const minute = Math.round((serial - Math.floor(serial)) * 1440) % 1440;
  return day === null ? NONE : { kind: "day", day, minute: minute === 0 ? null : minute };
}

/** "mar 4/11" is a Tuesday (mardi, martes), "Mar 4" is in March: a word that may be both is a day before a whole date. */
function withoutWeekday(text: string): string {
  const [, first, rest = ""] = /^(\p{L}+)\.?[\s,]+(.*\d.*)$/u.exec(text) ?? [];
  if (first === undefined) return text.trim();
  const word = plain(first);
  if (!WEEKDAYS.has(word)) return text.trim();
  const isWhole = /\d\s*[-/.]\s*\d|\d.*\p{L}{3}/u.test(rest);
  return isWhole || !MONTHS.has(word) ? rest : text.trim();
}

function minuteOf(text: string): number | null {
  const [hour = 0, minute = 0] = text.split(/[:h]/).map(Number);
  return hour < 24 && minute < 60 ? hour * 60 + minute : null;
}

/** "25" is 2025. */
function fullYear(text: string): number {
  return text.length === 2 ? 2000 + Number(text) : Number(text);
}

function calendarDay(year: number, month: number, date: number, minute: number | null): DayText {
  if (year >= LATE) return { kind: "era", year, month, date, minute };
  const day = dayFrom(year, month, date);
  return day === null ? NONE : { kind: "day", day, minute };
}

/** A day of the calendar from its parts, or null when there is none. */
export function dayFrom(year: number, month: number, date: number): string | null {
  const day = `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(date).padStart(2, "0")}`;
  return isDay(day) ? day : null;
}
