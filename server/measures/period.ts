import { sumOf } from "#server/statistics/sum";
import type { RestsOn } from "#server/terms/figure";
import type { DaySum, Summed } from "#server/terms/sums";

/** Days from `from` to `to`, both in. A month is a period, and so is a quarter. */
export interface Period {
  readonly from: string;
  readonly to: string;
}

/** One day of one measure, all methods together. */
export interface DayPart {
  readonly day: string;
  readonly batches: number;
  readonly loads: number;
  readonly num: number;
  readonly den: number;
}

export function isWithin(day: string, period: Period): boolean {
  return day >= period.from && day <= period.to;
}

/** The sums whose day lies in the period. A sum emptied by a correction says nothing and is left out. */
export function within(sums: readonly DaySum[], period: Period): DaySum[] {
  return sums.filter((sum) => sum.batches > 0 && isWithin(sum.day, period));
}

/** One measure by day, in the order of days; several methods of a day are added in the order of their names. */
export function byDay(sums: readonly DaySum[], measure: Summed): DayPart[] {
  const days = new Map<string, DaySum[]>();
  const ordered = sums
    .filter((sum) => sum.measure === measure && sum.batches > 0)
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.method < b.method ? -1 : Number(a.method > b.method)));
  for (const sum of ordered) {
    const day = days.get(sum.day);
    if (day) day.push(sum);
    else days.set(sum.day, [sum]);
  }
  return [...days].map(([day, parts]) => ({
    day,
    batches: sumOf(parts, (part) => part.batches),
    loads: sumOf(parts, (part) => part.loads),
    num: sumOf(parts, (part) => part.num),
    den: sumOf(parts, (part) => part.den),
  }));
}

/** How many batches, loads or days stand behind some days of a measure. */
export function countOf(parts: readonly DayPart[], of: Exclude<RestsOn["of"], "fuel windows">): number {
  if (of === "days") return parts.length;
  return sumOf(parts, (part) => (of === "loads" ? part.loads : part.batches));
}
