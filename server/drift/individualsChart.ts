import { mean } from "#server/statistics/moments";

/** Mean distance of two independent normal values, in standard deviations: 2 / sqrt(pi). */
export const D2 = 2 / Math.sqrt(Math.PI);

export interface IndividualsChart {
  readonly centre: number;
  /** mean distance of neighbours */
  readonly movingRange: number;
  readonly low: number;
  readonly high: number;
  /** places of the values outside, from 0 */
  readonly outside: readonly number[];
}

/**
 * Chart of single values with limits from the distances of neighbours; null for fewer than two values.
 *
 * centre ± width × mean moving range / d2. Handbooks print d2 as 1.128; give `d2` to reproduce their digits.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2.
 *
 * individualsChart([1, 3, 2]) // centre 2, moving ranges 2 and 1, limits 2 ± 3 × 1.5 / 1.128
 */
export function individualsChart(values: readonly number[], width = 3, d2 = D2): IndividualsChart | null {
  if (values.length < 2) return null;
  const centre = mean(values);
  const movingRange = mean(values.slice(1).map((value, i) => Math.abs(value - values[i]!)));
  const [low, high] = [centre - (width * movingRange) / d2, centre + (width * movingRange) / d2];
  return { centre, movingRange, low, high, outside: placesWhere(values, (value) => value < low || value > high) };
}

export function placesWhere<T>(values: readonly T[], is: (value: T, place: number) => boolean): number[] {
  return values.flatMap((value, place) => (is(value, place) ? [place] : []));
}
