import { delayOf } from "#server/drift/delay";
import { toldOn } from "#server/drift/toldOn";
import { dayNumber } from "#server/terms/days";
import type { FoundAfter } from "#server/terms/signalTold";
import type { HeldBy } from "./streamShown";

/** Sizes of change that are told. */
export const CHANGES = [0.05, 0.1, 0.2];
const WEEKLY = 7;

/** Answers kept, oldest given up first: streams of a programme ask for the same few again and again. */
const kept = new Map<string, number | null>();
const MOST_KEPT = 5000;

/** Days to two digits of the size, from learning times a quarter apart: closer than "about so many days" is told. */
function daysUntil(shift: number, learnt: number, { pooled, rules }: HeldBy): number | null {
  const size = Number(shift.toPrecision(2));
  const taught = Math.round(1.25 ** Math.round(Math.log(Math.max(1, learnt)) / Math.log(1.25)));
  const { omega, rho, d0, worth } = pooled;
  const key = [size, taught, omega, rho, d0, worth, rules.edge].join(" ");
  const before = kept.get(key);
  if (before !== undefined) return before;
  const days = delayOf(size, taught, pooled, rules).median;
  const [oldest] = kept.keys();
  if (kept.size >= MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  kept.set(key, days);
  return days;
}

/** How soon lasting changes would be found in a stream, if they began on a day. */
export function foundAfter(
  stream: {
    readonly learnt: number;
    readonly unit: number | null;
    readonly points: number;
    readonly daysInMonth: number;
  },
  held: HeldBy,
  today: string,
  dueDayOfMonth: number | null,
  changes: readonly number[] = CHANGES,
): FoundAfter[] {
  const { unit, learnt, points, daysInMonth } = stream;
  if (unit === null || !(unit > 0) || points === 0) return [];
  const perWeek = Math.min(7, (7 * points) / daysInMonth);
  return changes.map((change) => {
    const days = daysUntil(Math.log1p(change) / unit, learnt, held);
    if (days === null) return { change, days, toldOn: null, calendarDays: null, calendarDaysWeekly: null };
    const told = toldOn(today, days, perWeek, dueDayOfMonth);
    const calendar = Math.ceil((days * 7) / perWeek);
    return {
      change,
      days,
      toldOn: told,
      calendarDays: dayNumber(told) - dayNumber(today),
      calendarDaysWeekly: Math.ceil(calendar / WEEKLY) * WEEKLY,
    };
  });
}
