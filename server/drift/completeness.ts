import { normalQuantile } from "#server/statistics/normal";
import { proportionsChart } from "./proportionsChart";

/** What was owed in a month and what of it is missing. */
export interface OwedMonth {
  readonly month: string;
  readonly owed: number;
  readonly missing: number;
}

/** A month with clearly more missing than the months before it. */
export interface IncompleteMonth {
  readonly month: string;
  readonly share: number;
  /** share of the months before, and the share up to which nothing would have been said */
  readonly usual: number;
  readonly limit: number;
}

/** Months before the first that can be judged. */
const FEWEST_MONTHS = 6;

/**
 * Months in which more is missing than the site's own earlier months lead to expect, in the order given.
 *
 * One-sided: nobody is asked why nothing is missing. Limits widen with how much the site's months differ (Laney), and with
 * how few they are; `chance` is that of a false one in a month. A month that was told does not count as usual after.
 */
export function incompleteMonths(months: readonly OwedMonth[], chance: number): IncompleteMonth[] {
  const width = -normalQuantile(chance);
  const usual: OwedMonth[] = [];
  const told: IncompleteMonth[] = [];
  for (const one of months) {
    if (one.owed <= 0) continue;
    const chart = usual.length < FEWEST_MONTHS ? null : chartOf(usual);
    if (chart === null) {
      usual.push(one);
      continue;
    }
    const limit = highestShare(one.owed, chart, width);
    const share = one.missing / one.owed;
    if (share > limit) told.push({ month: one.month, share, usual: chart.centre, limit });
    else usual.push(one);
  }
  return told;
}

/**
 * The share up to which nothing is said, on the scale on which shares have equal spread (Anscombe 1948), half a batch
 * being given: so a site that never misses any is not asked about its first.
 */
function highestShare(owed: number, before: { missing: number; owed: number; spread: number }, width: number): number {
  const usual = Math.asin(Math.sqrt((before.missing + 0.375) / (before.owed + 0.75)));
  const half = (width * before.spread * Math.sqrt(1 / (owed + 0.5) + 1 / (before.owed + 0.5))) / 2;
  const highest = Math.sin(Math.min(Math.PI / 2, usual + half)) ** 2;
  return Math.min(1, (highest * (owed + 0.75) - 0.375 + 0.5) / owed);
}

function chartOf(
  months: readonly OwedMonth[],
): { centre: number; spread: number; owed: number; missing: number } | null {
  const sizes = months.map(({ owed }) => owed);
  const chart = proportionsChart(
    months.map(({ missing }) => missing),
    sizes,
    { laney: true },
  );
  if (chart === null) return null;
  const owed = sizes.reduce((sum, size) => sum + size, 0);
  return { centre: chart.centre, spread: chart.spread, owed, missing: chart.centre * owed };
}
