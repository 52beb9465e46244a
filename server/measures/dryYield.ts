import { LEVEL, type Span, tInterval } from "#server/statistics/interval";
import { type Ratio, ratioOfSums } from "#server/statistics/ratio";
import { sumOf } from "#server/statistics/sum";
import { type Figure, known } from "#server/terms/figure";
import type { DaySum } from "#server/terms/sums";
import { type About, none, restsOn } from "./about";
import { ratioRange } from "./missingRange";
import { byDay } from "./period";

/** Below this many days an interval would say more than is known. */
export const FEWEST_DAYS = 5;

/** The yield as a number, with its error where there are days enough. */
export interface YieldSums {
  readonly freshKg: number;
  readonly driedKg: number;
  /** kg dried per kg fresh */
  readonly ratio: number;
  /** standard error, the scale's part added; null with fewer than five days */
  readonly se: number | null;
  readonly days: number;
}

/** Sums of the batches with both weights; null when there are none. */
export function yieldSums(sums: readonly DaySum[]): YieldSums | null {
  const days = byDay(sums, "dry-yield");
  const found = ratioOfSums(days);
  if (found === null) return null;
  const freshKg = sumOf(days, (day) => day.den);
  const driedKg = sumOf(days, (day) => day.num);
  const se = found.se === null || days.length < FEWEST_DAYS ? null : withScale(found, found.se, freshKg, sums);
  return { freshKg, driedKg, ratio: found.ratio, se, days: days.length };
}

/**
 * Dry yield: kg of dried larvae out per kg of fresh larvae in.
 *
 * Total dried over total fresh of the batches with both weights, never the mean of the batches' own yields, so a small
 * trial weighs less than a full pan. The interval is by day (Student's t with days − 1), since loads of one day share
 * fire, sand and larvae; the variance of the scale's steps is added; there is none with fewer than five days.
 * Unknown when no batch has both weights. A higher yield is not a better one.
 * Source: cochran-sampling, ch. 6.
 *
 * dryYield([10 kg -> 3 kg, 30 kg -> 11 kg]) // 14 / 40 = 0.35 kg/kg, rests on 2
 */
export function dryYield(sums: readonly DaySum[], about: About): Figure {
  const rests = restsOn(sums, byDay(sums, "dry-yield"), about);
  const found = yieldSums(sums);
  if (found === null) return none("no-batch-with-both-weights", "kg/kg", rests, about);
  return known({
    value: found.ratio,
    unit: "kg/kg",
    restsOn: rests,
    interval: yieldInterval(found),
    missingRange: ratioRange(found.driedKg, found.freshKg, rests, about),
    asKnownOn: about.asKnownOn,
  });
}

function yieldInterval({ ratio, se, days }: YieldSums): Span | null {
  return se === null ? null : tInterval(ratio, se, days - 1, LEVEL);
}

/** A ratio D/F of two weighed sums has the variance (Σvar(D) + R²·Σvar(F)) / F² from the steps of the scales. */
function withScale({ ratio }: Ratio, se: number, freshKg: number, sums: readonly DaySum[]): number {
  const steps = byDay(sums, "scale");
  const dried = sumOf(steps, (day) => day.num);
  const fresh = sumOf(steps, (day) => day.den);
  return Math.sqrt(se * se + (dried + ratio * ratio * fresh) / (freshKg * freshKg));
}
