import { ewmaSpread } from "#server/statistics/ewmaChain";
import { placesWhere } from "./individualsChart";

export interface EwmaDesignGiven {
  readonly lambda: number;
  readonly target: number;
  readonly spread: number;
  /** limits in standard deviations of the chart */
  readonly width: number;
  /** limits that widen from the first point to the fixed ones, instead of fixed ones */
  readonly widening?: boolean;
}

export interface EwmaChart {
  readonly ewma: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly outside: readonly number[];
}

/**
 * Exponentially weighted moving average with a known target and spread.
 *
 * z = lambda x + (1 - lambda) z, begun at the target. Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4.
 *
 * ewmaChart([52], { lambda: 0.3, target: 50, spread: 2, width: 3 }).ewma // 0.3 × 52 + 0.7 × 50 = 50.6
 */
export function ewmaChart(
  values: readonly number[],
  { lambda, target, spread, width, widening = false }: EwmaDesignGiven,
): EwmaChart {
  let z = target;
  const ewma = values.map((value) => {
    z += lambda * (value - z);
    return z;
  });
  const half = values.map((_, i) => {
    const grown = widening ? Math.sqrt(1 - (1 - lambda) ** (2 * (i + 1))) : 1;
    return width * spread * ewmaSpread(lambda) * grown;
  });
  const low = half.map((distance) => target - distance);
  const high = half.map((distance) => target + distance);
  return { ewma, low, high, outside: placesWhere(ewma, (value, i) => value < low[i]! || value > high[i]!) };
}
