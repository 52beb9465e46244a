import { dayNumber, daysOfMonth, monthOf, plusDays } from "#server/terms/days";
import type { Cell } from "#server/terms/grid";
import type { ProblemCode } from "#server/terms/problem";
import type { Hints } from "#server/terms/row";
import { inOrder, nearest, type OrderFound } from "../columns/dayOrder";
import { commonYear, type DayText, dayFrom, LATE, readDay } from "../values/days";

export type DayRead =
  | {
      readonly kind: "day";
      readonly day: string;
      readonly minute: number | null;
      /** taken from the day above */
      readonly filled: boolean;
    }
  | { readonly kind: "absent" }
  | { readonly kind: "problem"; readonly code: ProblemCode; readonly puts: readonly string[] };

export type DayReader = (cell: Cell) => DayRead;

/** A log of one month may hold days of the week before and after it: common practice. */
const DAYS_AROUND = 7;

/** Reads days wherever they stand in a file whose order of dates is settled or open. */
export function dayReader(found: OrderFound, hints: Hints): DayReader {
  return (cell) => settledDay(readDay(cell), found, hints);
}

/** The day that a cell writes, once the order of dates of its file is settled or open. */
export function settledDay(text: DayText, found: OrderFound, hints: Hints): DayRead {
  switch (text.kind) {
    case "absent":
      return { kind: "absent" };
    case "none":
      return problem("day-not-a-date");
    case "day":
      return within(text.day, text.minute, hints);
    case "era":
      return ofEra(dayFrom(commonYear(text.year), text.month, text.date), text.minute, hints);
    case "named":
      return withoutYear((period) => nearest(text.month, text.date, period), hints);
    case "date-only":
      return withoutYear((period) => dayFrom(Number(period.slice(0, 4)), Number(period.slice(5, 7)), text.date), hints);
    case "parts":
      return ofParts(text, found, hints);
  }
}

function ofParts(text: Extract<DayText, { kind: "parts" }>, found: OrderFound, hints: Hints): DayRead {
  if (text.year === null && hints.period === undefined) return problem("day-not-a-date");
  const dmy = inOrder(text, "dmy", hints.period);
  const mdy = inOrder(text, "mdy", hints.period);
  if (found.order === "ymd" && text.year !== null && hints.answers?.dayOrder === "ymd") {
    const day = dayFrom(2000 + text.a, text.b, text.year % 100);
    return day === null ? problem("day-not-a-date") : within(day, text.minute, hints);
  }
  if (dmy === null && mdy === null) return problem("day-not-a-date");
  const isLate = text.year !== null && text.year >= LATE;
  const placed = (day: string) => (isLate ? ofEra(day, text.minute, hints) : within(day, text.minute, hints));
  if (dmy === null || mdy === null || dmy === mdy) return placed(dmy ?? mdy ?? "");
  if (found.open) return problem("day-order-unclear", [dmy, mdy]);
  return placed(found.order === "mdy" ? mdy : dmy);
}

function withoutYear(dayIn: (period: string) => string | null, hints: Hints): DayRead {
  if (hints.period === undefined) return problem("day-not-a-date");
  const day = dayIn(hints.period);
  return day === null ? problem("day-not-a-date") : within(day, null, hints);
}

/**
 * A day far from the month of the log is held, with the same day in the log's own year as a choice, and the day itself
 * unless it is still to come.
 */
function within(day: string, minute: number | null, hints: Hints): DayRead {
  const { period, lastDay } = hints;
  const late = lastDay !== undefined && day > plusDays(lastDay, 1);
  if (period === undefined)
    return late || day < "1990-01-01" ? problem("day-outside-period") : { kind: "day", day, minute, filled: false };
  const month = daysOfMonth(period);
  const number = dayNumber(day);
  const near = number >= dayNumber(month.from) - DAYS_AROUND && number <= dayNumber(month.to) + DAYS_AROUND;
  if (near && !late) return { kind: "day", day, minute, filled: false };
  const moved = dayFrom(Number(period.slice(0, 4)), Number(day.slice(5, 7)), Number(day.slice(8, 10)));
  const meant = moved !== null && moved !== day && monthOf(moved) === period ? [moved] : [];
  return problem("day-outside-period", late ? meant : [...meant, day]);
}

/** A day whose year may be of the Buddhist era: a person says so once for the log; until then it is offered. */
function ofEra(day: string | null, minute: number | null, hints: Hints): DayRead {
  const said = hints.answers?.years;
  if (day === null) return problem("day-not-a-date");
  if (said === "buddhist") return within(day, minute, hints);
  const asCommon = within(day, minute, hints);
  if (asCommon.kind !== "day") return asCommon;
  return problem("day-outside-period", said === "common" ? [] : [day]);
}

function problem(code: ProblemCode, puts: readonly string[] = []): DayRead {
  return { kind: "problem", code, puts };
}
