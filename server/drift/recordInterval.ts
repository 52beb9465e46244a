import { normalQuantile } from "#server/statistics/normal";
import { studentQuantile } from "#server/statistics/student";
import type { OwedMonth } from "./completeness";

/** What was owed and is missing on each day of a month that owed; a day's share of a month need not be whole. */
export interface OwedDay {
  readonly owed: number;
  readonly missing: number;
}

/**
 * How much more a month's share of missing varies than single loads by chance would have it, because a day that is missing
 * takes all its loads with it: the variance by days over that of single loads, n / (n - 1) Σ (missing - p owed)² / (owed p (1 - p)).
 *
 * Never below 1. Where days count themselves, or fewer than two owed, it is 1: days that are missing in a row are not seen.
 *
 * clumpingOf([2 of 2 missing, 0 of 2, 0 of 2, 2 of 2]) // p = 1/2: 4/3 × 4 / (8 / 4) = 2.67
 */
export function clumpingOf(days: readonly OwedDay[]): number {
  const owed = days.reduce((sum, one) => sum + one.owed, 0);
  const missing = days.reduce((sum, one) => sum + one.missing, 0);
  const alone = (missing * (owed - missing)) / owed;
  if (days.length < 2 || !(alone > 0)) return 1;
  const apart = days.reduce((sum, one) => sum + (one.missing - (missing / owed) * one.owed) ** 2, 0);
  return Math.max(1, ((days.length / (days.length - 1)) * apart) / alone);
}

/**
 * The 95 % interval of a month's share of missing, on the scale on which shares have equal spread (Anscombe 1948).
 *
 * Its variance is that of single loads times `clumping`, the larger of what the month's days show (`clumpingOf`) and of how
 * much the site's months differ; Student's t with a degree less than there
 * are days; the normal law where no schedule tells the days.
 *
 * recordInterval({ owed: 50, missing: 25 }, 1, 26) // 0.36 to 0.64
 */
export function recordInterval(
  { owed, missing }: Pick<OwedMonth, "owed" | "missing">,
  clumping: number,
  days: number,
): { readonly low: number; readonly high: number } {
  const widths = days < 2 ? -normalQuantile(0.025) : -studentQuantile(0.025, days - 1);
  const centre = Math.asin(Math.sqrt((missing + 0.375) / (owed + 0.75)));
  const half = (widths * Math.sqrt(Math.max(1, clumping) / (owed + 0.5))) / 2;
  const share = (angle: number) => {
    const held = Math.sin(Math.min(Math.PI / 2, Math.max(0, angle))) ** 2;
    return Math.min(1, Math.max(0, (held * (owed + 0.75) - 0.375) / owed));
  };
  return { low: Math.min(missing / owed, share(centre - half)), high: Math.max(missing / owed, share(centre + half)) };
}
