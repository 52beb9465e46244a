import { dayNumber, dayOf, daysOfMonth, monthOf, plusMonths } from "#server/terms/days";

/**
 * The day on which a change that begins today would be told, where it needs so many days with a value.
 *
 * `daysPerWeek` are days with a value in a week; with a due day the log comes monthly, on that day of the following month;
 * without one (null) it comes every day.
 *
 * toldOn("2031-03-10", 12, 6, 5) // 14 calendar days: 24 March, told with the log due on 5 April
 */
export function toldOn(today: string, daysNeeded: number, daysPerWeek: number, dueDayOfMonth: number | null): string {
  const seen = dayOf(dayNumber(today) + Math.ceil((daysNeeded * 7) / daysPerWeek));
  if (dueDayOfMonth === null) return seen;
  const next = plusMonths(monthOf(seen), 1);
  return dayOf(dayNumber(daysOfMonth(next).from) + dueDayOfMonth - 1);
}
