import { median, medianDeviation } from "#server/statistics/moments";
import type { Pooled, Rules } from "./parameters";
import type { Series } from "./series";

/** The mass that counts as one: the middle one of the learning days, so that later days do not change earlier scores. */
export function usualMass({ mass }: Series, learn: number): number {
  return median(mass.subarray(0, Math.max(1, learn))) ?? 1;
}

/**
 * Which learning days are so far from their own middle that they would teach nonsense, such as a tenfold typing error.
 *
 * The limit is that of a spike: an honest learning time loses a day about as rarely as an honest stream asks a question.
 */
export function screenedOut(series: Series, pooled: Pooled, rules: Rules): (place: number) => boolean {
  if (rules.learn < 5 || !Number.isFinite(rules.spikeAt)) return () => false;
  const range = screeningRange(series, pooled, rules);
  if (range === null) return () => false;
  return (place) => Math.abs(series.value[place]! - range.centre) > range.half(series.mass[place]!);
}

/**
 * What learning days are held against: their middle, and how far a day of some mass may be from it.
 *
 * The yardstick is the median deviation × 1.4826 or what other streams lead to expect, whichever is wider. Null where
 * there is no yardstick.
 */
export function screeningRange(
  series: Series,
  { omega, s02 }: Pooled,
  { learn, spikeAt }: Rules,
): { centre: number; half: (mass: number) => number } | null {
  const values = series.value.subarray(0, learn);
  const centre = median(values);
  const yardstick = Math.max(1.4826 * (medianDeviation(values) ?? 0), Math.sqrt(s02));
  if (centre === null || yardstick === 0) return null;
  const own = (1 - omega) * usualMass(series, learn);
  return { centre, half: (mass) => spikeAt * yardstick * Math.sqrt(omega + own / mass) };
}
