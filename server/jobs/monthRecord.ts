import type { OwedMonth } from "#server/drift/completeness";
import { clumpingOf } from "#server/drift/recordInterval";
import type { Numbered } from "#server/measures/numberedSeries";
import { owed } from "#server/measures/owed";
import { byDay, countOf, within } from "#server/measures/period";
import type { Method } from "#server/terms/batch";
import { daysOfMonth, monthOf, monthsBetween, plusMonths, weekday } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import type { DaySum } from "#server/terms/sums";

/** A month's record of a site: what was owed, what of it cannot be used, and the first day on which it can be judged. */
export interface RecordMonth extends OwedMonth {
  readonly method: Method;
  readonly judgedFrom: string;
  /** days that owed by the schedule, and by how much more than single loads their shares vary; 0 and 1 without one */
  readonly days: number;
  readonly clumping: number;
}

/** The first day of which a site's logs hold anything; null: none yet. */
export function firstDayOf(sums: readonly DaySum[]): string | null {
  return sums.reduce<string | null>((low, { day }) => (low === null || day < low ? day : low), null);
}

/**
 * The record of a site month by month, from `first` to `last` as far as anything was owed: owed against usable for dry
 * yield. A month is judged once its log is due, or a month later where no due day was declared. Months for which nobody
 * declared what was owed are left out.
 */
export function monthlyRecord(
  site: number,
  sums: readonly DaySum[],
  facts: readonly Fact[],
  numbered: readonly Numbered[],
  { first, last }: { readonly first: string; readonly last: string },
): RecordMonth[] {
  const own = facts.filter((fact) => fact.site === site);
  const byMonth = new Map<string, DaySum[]>();
  for (const one of sums) {
    const month = byMonth.get(monthOf(one.day));
    if (month === undefined) byMonth.set(monthOf(one.day), [one]);
    else month.push(one);
  }
  return monthsBetween(first, last).flatMap((month) => {
    const period = daysOfMonth(month);
    const all = within(byMonth.get(month) ?? [], period);
    const logged = byDay(all, "here").map(({ day }) => day);
    const { count, of, days } = owed(period, own, numbered, logged);
    if (count === null || count === 0) return [];
    const used = byDay(all, "dry-yield");
    const usable = Math.min(count, countOf(used, of));
    const usableOn = new Map(used.map((one) => [one.day, countOf([one], of)]));
    const planned = days.owing.filter((day) => inForce(own, "schedule", day)?.weekdays.includes(weekday(day)) === true);
    const each = count / planned.length;
    const byDays = planned.map((day) => ({ owed: each, missing: each - Math.min(each, usableOn.get(day) ?? 0) }));
    const method = all[0]?.method ?? inForce(own, "method", period.to)?.method ?? "other";
    return [
      {
        month,
        owed: count,
        missing: count - usable,
        method,
        judgedFrom: judgedFrom(month, facts, site),
        days: planned.length,
        clumping: clumpingOf(byDays),
      },
    ];
  });
}

function judgedFrom(month: string, facts: readonly Fact[], site: number): string {
  const next = plusMonths(month, 1);
  const own = facts.filter((fact) => fact.site === site || fact.site === 0);
  const due = inForce(own, "due", daysOfMonth(month).to);
  return due === null ? daysOfMonth(next).to : `${next}-${String(due.dayOfMonth + 1).padStart(2, "0")}`;
}
