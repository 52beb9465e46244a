import { LEVEL } from "#server/statistics/interval";
import { tQuantile } from "#server/statistics/quantile";
import { sumOf } from "#server/statistics/sum";

/** One site's value with its standard error; the error is more than nothing. */
export interface Estimate {
  readonly value: number;
  readonly se: number;
}

/** What some sites have in common, and how far they differ beyond chance. */
export interface Spread {
  /** number of sites */
  readonly of: number;
  readonly mean: number;
  /** standard error of the mean when the spread between sites is taken as known */
  readonly se: number;
  /** interval of the mean, Hartung–Knapp */
  readonly low: number;
  readonly high: number;
  readonly level: number;
  /** variance between sites beyond chance; 0 where chance explains all of it */
  readonly tau2: number;
  /** Cochran's Q: around the number of sites less one where only chance is at work */
  readonly q: number;
  /** share of the differences that chance does not explain, 0 to 1 */
  readonly i2: number;
}

/**
 * Mean of sites that may truly differ, and their spread beyond chance.
 *
 * tau² by DerSimonian & Laird; the mean weighs each site by 1 / (its own variance + tau²); its interval is that of
 * Hartung and Knapp, with Student's t of one degree less than there are sites. Null for fewer than two sites.
 * Source: der-simonian-laird; hartung-knapp.
 *
 * spreadOf([1 ± 1, 3 ± 1]) // mean 2, Q = 2, tau² = (2 − 1) / (2 − 1) = 1
 */
export function spreadOf(estimates: readonly Estimate[]): Spread | null {
  const of = estimates.length;
  if (of < 2) return null;
  const fixed = weighted(estimates, 0);
  const q = sumOf(estimates, ({ value, se }) => (value - fixed.mean) ** 2 / se ** 2);
  const squares = sumOf(estimates, ({ se }) => se ** -4);
  const tau2 = Math.max(0, (q - (of - 1)) / (fixed.weight - squares / fixed.weight));
  const { mean, weight } = weighted(estimates, tau2);
  const scatter = sumOf(estimates, ({ value, se }) => (value - mean) ** 2 / (se ** 2 + tau2)) / (of - 1);
  const half = tQuantile((1 + LEVEL) / 2, of - 1) * Math.sqrt(scatter / weight);
  return {
    of,
    mean,
    se: Math.sqrt(1 / weight),
    low: mean - half,
    high: mean + half,
    level: LEVEL,
    tau2,
    q,
    i2: q > of - 1 ? (q - (of - 1)) / q : 0,
  };
}

function weighted(estimates: readonly Estimate[], tau2: number): { mean: number; weight: number } {
  const weight = sumOf(estimates, ({ se }) => 1 / (se ** 2 + tau2));
  return { weight, mean: sumOf(estimates, ({ value, se }) => value / (se ** 2 + tau2)) / weight };
}
