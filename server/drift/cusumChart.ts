import { placesWhere } from "./individualsChart";

export interface CusumChart {
  readonly up: readonly number[];
  readonly down: readonly number[];
  /** places where either sum is above the limit */
  readonly outside: readonly number[];
}

/**
 * Two cumulative sums of what goes beyond the target by more than the allowance, in the values' own unit.
 *
 * up = max(0, up + x - target - allowance), down likewise the other way; both begin at zero and go on after a signal.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.
 *
 * cusumChart([326, 324], { target: 325, allowance: 0.25, limit: 4 }) // up 0.75, 0; down 0, 0.75
 */
export function cusumChart(
  values: readonly number[],
  { target, allowance, limit }: { readonly target: number; readonly allowance: number; readonly limit: number },
): CusumChart {
  let [high, low] = [0, 0];
  const up: number[] = [];
  const down: number[] = [];
  for (const value of values) {
    high = Math.max(0, high + value - target - allowance);
    low = Math.max(0, low + target - value - allowance);
    up.push(high);
    down.push(low);
  }
  return { up, down, outside: placesWhere(up, (sum, i) => sum > limit || down[i]! > limit) };
}
