/** Fewer sites than this have no middle half that could be told from the sites themselves. */
export const FEWEST_FOR_MIDDLE = 4;

/** The values between which the middle half of some sites lies. */
export interface MiddleHalf {
  readonly low: number;
  readonly high: number;
  /** number of sites it was worked out from */
  readonly of: number;
}

/**
 * Lower and upper quartile of the sites' own values, each site counting once; null with fewer than four.
 *
 * The same as R's `quantile` type 7: values lie at the places 0, 1, … n − 1, and between two of them on a straight line.
 *
 * middleHalf([0.30, 0.32, 0.34, 0.40]) // places 0.75 and 2.25: 0.315 and 0.355
 */
export function middleHalf(values: readonly number[]): MiddleHalf | null {
  if (values.length < FEWEST_FOR_MIDDLE) return null;
  return { low: quantile(values, 0.25), high: quantile(values, 0.75), of: values.length };
}

/** The value below which a share of the values lies; the same as R's `quantile` type 7. At least one value is needed. */
export function quantile(values: readonly number[], share: number): number {
  if (values.length === 0) throw new Error("nothing has no quantile");
  const sorted = [...values].sort((a, b) => a - b);
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const [low, high] = [sorted[below]!, sorted[Math.min(below + 1, sorted.length - 1)]!];
  return low + (place - below) * (high - low);
}
