import type { OwedMonth } from "#server/drift/completeness";
import type { Numbered } from "#server/measures/numberedSeries";
import { owed } from "#server/measures/owed";
import { byDay, countOf, within } from "#server/measures/period";
import type { Method } from "#server/terms/batch";
import { daysOfMonth, monthOf, monthsBetween, plusMonths } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import type { DaySum } from "#server/terms/sums";

/** A month's record of a site: what was owed, what of it cannot be used, and the first day on which it can be judged. */
export interface RecordMonth extends OwedMonth {
  readonly method: Method;
  readonly judgedFrom: string;
}

/**
 * The record of a site month by month, from its first to its last month with anything owed: owed against usable for dry
 * yield. A month is judged once its log is due, or a month later where no due day was declared. Months for which nobody
 * declared what was owed are left out.
 */
export function monthlyRecord(
  site: number,
  sums: readonly DaySum[],
  facts: readonly Fact[],
  numbered: readonly Numbered[],
  last: string,
): RecordMonth[] {
  const first = sums.reduce<string | null>((low, { day }) => (low === null || day < low ? day : low), null);
  if (first === null) return [];
  const own = facts.filter((fact) => fact.site === site);
  return monthsBetween(monthOf(first), last).flatMap((month) => {
    const period = daysOfMonth(month);
    const all = within(sums, period);
    const logged = byDay(all, "here").map(({ day }) => day);
    const { count, of } = owed(period, own, numbered, logged);
    if (count === null || count === 0) return [];
    const usable = Math.min(count, countOf(byDay(all, "dry-yield"), of));
    const method = all[0]?.method ?? inForce(own, "method", period.to)?.method ?? "other";
    return [{ month, owed: count, missing: count - usable, method, judgedFrom: judgedFrom(month, facts, site) }];
  });
}

function judgedFrom(month: string, facts: readonly Fact[], site: number): string {
  const next = plusMonths(month, 1);
  const own = facts.filter((fact) => fact.site === site || fact.site === 0);
  const due = inForce(own, "due", daysOfMonth(month).to);
  return due === null ? daysOfMonth(next).to : `${next}-${String(due.dayOfMonth + 1).padStart(2, "0")}`;
}
