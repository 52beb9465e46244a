import { mean } from "#server/statistics/moments";
import { D2, placesWhere } from "./individualsChart";

export interface ProportionsChart {
  readonly centre: number;
  /** by how much months differ more than chance alone would have them: Laney's factor, 1 when it is not asked for */
  readonly spread: number;
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly outside: readonly number[];
}

/**
 * Chart of shares of unequal numbers; null where nothing was counted.
 *
 * centre ± width × sqrt(p (1 - p) / n) × spread, where the spread is the mean distance of neighbouring standard shares
 * over d2 (Laney 2002, Quality Engineering 14:531) and never below one. Source of the plain chart: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 6.3.3.2.
 *
 * proportionsChart([4, 6], [20, 30]) // centre 10 / 50 = 0.2
 */
export function proportionsChart(
  counts: readonly number[],
  sizes: readonly number[],
  { width = 3, laney = false, d2 = D2 } = {},
): ProportionsChart | null {
  const total = sizes.reduce((sum, size) => sum + size, 0);
  if (!(total > 0)) return null;
  const centre = counts.reduce((sum, count) => sum + count, 0) / total;
  const sigma = sizes.map((size) => Math.sqrt((centre * (1 - centre)) / size));
  const shares = counts.map((count, i) => count / sizes[i]!);
  const spread = laney ? Math.max(1, laneyFactor(counts, sizes, d2) ?? 1) : 1;
  const low = sigma.map((one) => Math.max(0, centre - width * one * spread));
  const high = sigma.map((one) => Math.min(1, centre + width * one * spread));
  return {
    centre,
    spread,
    low,
    high,
    outside: placesWhere(shares, (share, i) => share < low[i]! || share > high[i]!),
  };
}

/**
 * By how much shares differ from neighbour to neighbour, in standard deviations that chance alone would give them: mean
 * distance of neighbouring standard shares over d2. Null where it cannot be told: fewer than two, or nothing that varies.
 */
export function laneyFactor(counts: readonly number[], sizes: readonly number[], d2 = D2): number | null {
  const total = sizes.reduce((sum, size) => sum + size, 0);
  const centre = counts.reduce((sum, count) => sum + count, 0) / total;
  if (!(centre > 0 && centre < 1) || counts.length < 2) return null;
  const standard = counts.map(
    (count, i) => (count / sizes[i]! - centre) / Math.sqrt((centre * (1 - centre)) / sizes[i]!),
  );
  return mean(standard.slice(1).map((z, i) => Math.abs(z - standard[i]!))) / d2;
}
