import { monthOf } from "#server/terms/days";
import type { Hints } from "#server/terms/row";
import { commonYear, type DayOrder, type DayText, dayFrom, LATE } from "../values/days";

type Parts = Extract<DayText, { kind: "parts" }>;

/** The order of a file's dates; `open` when two orders are possible, would differ, and nothing decides. */
export interface OrderFound {
  readonly order: DayOrder | null;
  readonly open: boolean;
}

/**
 * Decides the order of a file's dates: an answer, else the cells that allow only one, else the order that puts
 * more of them into the month of the log, else what the site declared.
 */
export function dayOrder(texts: Iterable<DayText>, hints: Hints): OrderFound {
  if (hints.answers?.dayOrder !== undefined) return { order: hints.answers.dayOrder, open: false };
  let yearFirst = 0;
  let onlyDmy = 0;
  let onlyMdy = 0;
  let differing = 0;
  let dmyHere = 0;
  let mdyHere = 0;
  for (const text of texts) {
    if (text.kind === "day" || text.kind === "era") yearFirst++;
    if (text.kind !== "parts") continue;
    const dmy = inOrder(text, "dmy", hints.period);
    const mdy = inOrder(text, "mdy", hints.period);
    if (dmy !== null && mdy === null) onlyDmy++;
    if (mdy !== null && dmy === null) onlyMdy++;
    if (dmy === null || mdy === null || dmy === mdy) continue;
    differing++;
    if (monthOf(dmy) === hints.period) dmyHere++;
    if (monthOf(mdy) === hints.period) mdyHere++;
  }
  if (onlyDmy > 0 && onlyMdy === 0) return { order: "dmy", open: false };
  if (onlyMdy > 0 && onlyDmy === 0) return { order: "mdy", open: false };
  if (differing === 0) return { order: yearFirst > 0 && onlyDmy + onlyMdy === 0 ? "ymd" : "dmy", open: false };
  if (onlyDmy === 0 && dmyHere > mdyHere) return { order: "dmy", open: false };
  if (onlyDmy === 0 && mdyHere > dmyHere) return { order: "mdy", open: false };
  if (hints.dayOrder !== undefined && onlyDmy === 0) return { order: hints.dayOrder, open: false };
  return { order: null, open: true };
}

/**
 * The day that parts make in an order; without a year, the one nearest to the period; a late year as one of the Buddhist
 * era. Null when there is none.
 */
export function inOrder({ a, b, year }: Parts, order: DayOrder, period: string | undefined): string | null {
  const [date, month] = order === "mdy" ? [b, a] : [a, b];
  if (year !== null) return dayFrom(year >= LATE ? commonYear(year) : year, month, date);
  return period === undefined ? dayFrom(2000, month, date) : nearest(month, date, period);
}

/** 31 December in a log for January is of the year before. */
export function nearest(month: number, date: number, period: string): string | null {
  const [year = 0, at = 0] = period.split("-").map(Number);
  const offset = month - at > 6 ? -1 : at - month > 6 ? 1 : 0;
  return dayFrom(year + offset, month, date);
}
