import { normalQuantile, tQuantile } from "./quantile";

/** The level of every interval that is shown. */
export const LEVEL = 0.95;

export interface Span {
  readonly low: number;
  readonly high: number;
  readonly level: number;
}

/**
 * Two-sided interval around a value by Student's t.
 *
 * tInterval(0.3, 0.01, 4) // 0.3 ± 2.776 · 0.01 = 0.272 … 0.328
 */
export function tInterval(value: number, se: number, degreesOfFreedom: number, level = LEVEL): Span {
  const reach = tQuantile((1 + level) / 2, degreesOfFreedom) * se;
  return { low: value - reach, high: value + reach, level };
}

/** Two-sided interval around a value by the normal distribution: ± 1.96 standard errors at 0.95. */
export function normalInterval(value: number, se: number, level = LEVEL): Span {
  const reach = normalQuantile((1 + level) / 2) * se;
  return { low: value - reach, high: value + reach, level };
}
