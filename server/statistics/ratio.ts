import { sumOf } from "./sum";

/** What one cluster (a day, a fuel window) adds to a ratio. */
export interface Pair {
  readonly num: number;
  readonly den: number;
}

/** Sums over clusters that a ratio and its error can be worked out from. They add up over months. */
export interface RatioSums extends Pair {
  readonly clusters: number;
  readonly num2: number;
  readonly den2: number;
  readonly numDen: number;
}

export interface Ratio {
  readonly ratio: number;
  /** standard error; null with fewer than two clusters */
  readonly se: number | null;
  readonly clusters: number;
}

/**
 * Ratio of sums with its standard error by clusters, without a finite population correction.
 *
 * se = √(n/(n−1) · Σ(num − R·den)²) / Σden over n clusters: the same as `survey::svyratio` in R with weights of one.
 * Null when there are no clusters or the denominators add up to nothing.
 * Source: cochran-sampling, ch. 6.
 *
 * ratioOfSums([{ num: 3, den: 10 }, { num: 11, den: 30 }]) // ratio 14/40 = 0.35, se √(2 · (0.25 + 0.25)) / 40 = 0.025
 */
export function ratioOfSums(pairs: readonly Pair[]): Ratio | null {
  const den = sumOf(pairs, (pair) => pair.den);
  if (!(den > 0)) return null;
  const ratio = sumOf(pairs, (pair) => pair.num) / den;
  const squares = sumOf(pairs, (pair) => (pair.num - ratio * pair.den) ** 2);
  return { ratio, se: clusterError(pairs.length, squares, den), clusters: pairs.length };
}

/** The same from sums alone; close to `ratioOfSums`, not bit for bit, since squares of large sums lose digits. */
export function ratioFromSums(sums: RatioSums): Ratio | null {
  if (!(sums.den > 0)) return null;
  const ratio = sums.num / sums.den;
  const squares = Math.max(0, sums.num2 - 2 * ratio * sums.numDen + ratio * ratio * sums.den2);
  return { ratio, se: clusterError(sums.clusters, squares, sums.den), clusters: sums.clusters };
}

function clusterError(clusters: number, squares: number, den: number): number | null {
  return clusters < 2 ? null : Math.sqrt((clusters / (clusters - 1)) * squares) / den;
}
