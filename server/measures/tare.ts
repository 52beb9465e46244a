import { sumOf } from "#server/statistics/sum";

/** Fresh weights must differ by at least this share of their mean before a slope says anything. */
const LEAST_SPREAD = 0.05;

/**
 * Weight of a container left in both weights, in kg, from the line of dried on fresh: intercept / (1 − slope).
 *
 * A true yield y and a container of t kg give dried = y·fresh + t·(1 − y). Null where fresh weights are fixed by recipe
 * (no spread, no slope), with fewer than three loads, or where the slope is no yield.
 *
 * containerLeftIn([9 -> 3.56, 11 -> 4.20, 13 -> 4.84]) // slope 0.32, intercept 0.68: 1.0 kg
 */
export function containerLeftIn(
  loads: readonly { readonly freshKg: number; readonly driedKg: number }[],
): number | null {
  if (loads.length < 3) return null;
  const meanFresh = sumOf(loads, (load) => load.freshKg) / loads.length;
  const meanDried = sumOf(loads, (load) => load.driedKg) / loads.length;
  const squares = sumOf(loads, (load) => (load.freshKg - meanFresh) ** 2);
  if (!(Math.sqrt(squares / loads.length) > LEAST_SPREAD * meanFresh)) return null;
  const products = sumOf(loads, (load) => (load.freshKg - meanFresh) * (load.driedKg - meanDried));
  const slope = products / squares;
  if (slope <= 0 || slope >= 1) return null;
  return (meanDried - slope * meanFresh) / (1 - slope);
}
