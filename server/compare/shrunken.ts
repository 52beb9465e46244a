import { LEVEL, normalInterval } from "#server/statistics/interval";
import type { Interval } from "#server/terms/figure";
import type { Estimate, Spread } from "./randomEffects";

/** A site's value moved toward the mean of its like, the further the less the site's own days tell. */
export interface Shrunken extends Interval {
  readonly value: number;
  readonly se: number;
  /** share of the site's own value in it, 0 to 1 */
  readonly own: number;
}

/**
 * The best guess at a site's lasting level, from its own days and from the sites like it.
 *
 * own = tau² / (tau² + se²); value = own · its value + (1 − own) · mean; se² = own · se² + (1 − own)² · se(mean)².
 * Where tau² is 0 every site is given the common mean: no difference beyond chance. That tau² is itself estimated is not in
 * the interval.
 * Source: der-simonian-laird; the weighing of own and common is that of Efron and Morris 1975.
 *
 * shrunken({ value: 3, se: 1 }, spread of mean 2, tau² 1) // own 0.5: 2.5
 */
export function shrunken({ value, se }: Estimate, { mean, se: meanError, tau2 }: Spread): Shrunken {
  const own = tau2 / (tau2 + se ** 2);
  const moved = own * value + (1 - own) * mean;
  const error = Math.sqrt(own * se ** 2 + (1 - own) ** 2 * meanError ** 2);
  return { value: moved, se: error, own, ...normalInterval(moved, error, LEVEL) };
}
