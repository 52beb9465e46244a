import { sumOf } from "#server/statistics/sum";
import { monthOf } from "#server/terms/days";
import { type DaySum, type MonthSum, SUMMED } from "#server/terms/sums";

/**
 * Months of day sums, merged in the order of days; squares and products are over days, for intervals by day.
 *
 * monthSums([3 / 10 on the 1st, 11 / 30 on the 2nd]) // num 14, den 40, num2 130, den2 1000, numDen 360, days 2
 */
export function monthSums(daySums: readonly DaySum[]): MonthSum[] {
  const months = new Map<string, DaySum[]>();
  for (const sum of daySums) {
    const key = `${sum.site} ${monthOf(sum.day)} ${sum.method} ${sum.measure}`;
    const days = months.get(key);
    if (days) days.push(sum);
    else months.set(key, [sum]);
  }
  const inOrder = [...months.values()].sort(([a], [b]) => inOrderOfMonths(a!, b!));
  return inOrder.map((days) => {
    const { site, day, method, measure } = days.sort((a, b) => texts(a.day, b.day))[0]!;
    return {
      site,
      month: monthOf(day),
      method,
      measure,
      days: days.length,
      batches: sumOf(days, (sum) => sum.batches),
      loads: sumOf(days, (sum) => sum.loads),
      num: sumOf(days, (sum) => sum.num),
      den: sumOf(days, (sum) => sum.den),
      num2: sumOf(days, (sum) => sum.num * sum.num),
      den2: sumOf(days, (sum) => sum.den * sum.den),
      numDen: sumOf(days, (sum) => sum.num * sum.den),
    };
  });
}

function inOrderOfMonths(a: DaySum, b: DaySum): number {
  return (
    a.site - b.site ||
    texts(monthOf(a.day), monthOf(b.day)) ||
    texts(a.method, b.method) ||
    SUMMED.indexOf(a.measure) - SUMMED.indexOf(b.measure)
  );
}

function texts(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}
