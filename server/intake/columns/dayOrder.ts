import { monthOf } from "#server/terms/days";
import type { Hints } from "#server/terms/row";
import { commonYear, type DayOrder, type DayText, dayFrom, LATE } from "../values/days";

type Parts = Extract<DayText, { kind: "parts" }>;

/** The order of a file's dates; `open` when two orders are possible, would differ, and nothing decides. */
export interface OrderFound {
  readonly order: DayOrder | null;
  readonly open: boolean;
}

/** Gathers what the dates of a file tell of their order. */
export class OrderShown {
  readonly #hints: Hints;
  #yearFirst = 0;
  #onlyDmy = 0;
  #onlyMdy = 0;
  #differing = 0;
  #dmyHere = 0;
  #mdyHere = 0;

  constructor(hints: Hints) {
    this.#hints = hints;
  }

  add(text: DayText): void {
    if (text.kind === "parts") this.#addParts(text);
    else if (text.kind === "day" || text.kind === "era") this.#yearFirst++;
  }

  #addParts(text: Parts): void {
    const { period } = this.#hints;
    const dmy = inOrder(text, "dmy", period);
    const mdy = inOrder(text, "mdy", period);
    if (dmy !== null && mdy === null) this.#onlyDmy++;
    if (mdy !== null && dmy === null) this.#onlyMdy++;
    if (dmy === null || mdy === null || dmy === mdy) return;
    this.#differing++;
    if (monthOf(dmy) === period) this.#dmyHere++;
    if (monthOf(mdy) === period) this.#mdyHere++;
  }

  /**
   * The order of the dates: an answer, else what the cells allow that allow only one, else the order that puts more of
   * them into the month of the log, else what the site declared.
   */
  found(): OrderFound {
    const hints = this.#hints;
    const [onlyDmy, onlyMdy, dmyHere, mdyHere] = [this.#onlyDmy, this.#onlyMdy, this.#dmyHere, this.#mdyHere];
    if (hints.answers?.dayOrder !== undefined) return { order: hints.answers.dayOrder, open: false };
    if (onlyDmy > 0 && onlyMdy === 0) return { order: "dmy", open: false };
    if (onlyMdy > 0 && onlyDmy === 0) return { order: "mdy", open: false };
    if (this.#differing === 0)
      return { order: this.#yearFirst > 0 && onlyDmy + onlyMdy === 0 ? "ymd" : "dmy", open: false };
    if (onlyDmy === 0 && dmyHere > mdyHere) return { order: "dmy", open: false };
    if (onlyDmy === 0 && mdyHere > dmyHere) return { order: "mdy", open: false };
    if (hints.dayOrder !== undefined && onlyDmy === 0) return { order: hints.dayOrder, open: false };
    return { order: null, open: true };
  }
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
