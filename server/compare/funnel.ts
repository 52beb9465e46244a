import { adjustedChances } from "#server/statistics/falseDiscovery";
import { normalBelow, normalQuantile } from "#server/statistics/normal";
import { sumOf } from "#server/statistics/sum";
import { quantile } from "./middleHalf";
import type { Estimate } from "./randomEffects";

/** An estimate with the mass that it weighs with in the common value. */
export interface Weighed extends Estimate {
  readonly mass: number;
}

/** Limits around a common value within which sites lie by chance, wider for sites whose days tell less. */
export interface Funnel {
  /** total over total of the sites */
  readonly target: number;
  /** mean squared distance from the target in standard errors, the outermost tenths drawn in; 1 by chance alone */
  readonly phi: number;
  /** variance that sites differ by beyond chance, added to each site's own */
  readonly tau2: number;
  /** how many sites chance alone would put outside the outer limits */
  readonly expectedOutside: number;
  readonly sites: readonly FunnelSite[];
}

export interface FunnelSite {
  readonly inner: { readonly low: number; readonly high: number };
  readonly outer: { readonly low: number; readonly high: number };
  /** two-sided chance of lying as far out */
  readonly chance: number;
  /** beyond what chance allows; null within it, or while there are too few sites to say so */
  readonly outside: "above" | "below" | null;
}

/** Limits are drawn from this many sites on, and sites outside them marked from this many on. */
export const FEWEST_FOR_LIMITS = 5;
export const FEWEST_FOR_MARKS = 8;
/** With so many sites the marked ones are chosen by the share of false marks instead of by the limit alone. */
const MANY = 20;
const FALSE_MARKS = 0.05;
/** two-sided 95 % and 99.8 % */
const INNER = 0.975;
const OUTER = 0.999;

/**
 * Funnel limits around the common value of some sites, in the order given; null for fewer than five.
 *
 * A site's limits are target ± z · √(se² + tau²), z for 95 % and 99.8 %. tau² is additive over-dispersion: with phi the mean
 * square of the sites' z values, the lowest and highest tenth drawn in to the tenth's own value, it is
 * max(0, (n · phi − (n − 1)) / (Σw − Σw²/Σw)), w = 1 / se². Tenths are R's `quantile` type 7.
 * Source: funnel-limits.
 */
export function funnelOf(sites: readonly Weighed[]): Funnel | null {
  const count = sites.length;
  if (count < FEWEST_FOR_LIMITS) return null;
  const target = sumOf(sites, ({ value, mass }) => value * mass) / sumOf(sites, ({ mass }) => mass);
  const distances = sites.map(({ value, se }) => (value - target) / se);
  const [lowest, highest] = [quantile(distances, 0.1), quantile(distances, 0.9)];
  const phi = sumOf(distances, (z) => Math.min(highest, Math.max(lowest, z)) ** 2) / count;
  const weight = sumOf(sites, ({ se }) => se ** -2);
  const squares = sumOf(sites, ({ se }) => se ** -4);
  const tau2 = Math.max(0, (count * phi - (count - 1)) / (weight - squares / weight));
  const spreads = sites.map(({ se }) => Math.sqrt(se ** 2 + tau2));
  const chances = sites.map(({ value }, i) => 2 * normalBelow(-Math.abs(value - target) / spreads[i]!));
  const marked = markedBy(chances);
  return {
    target,
    phi,
    tau2,
    expectedOutside: 2 * (1 - OUTER) * count,
    sites: sites.map(({ value }, i) => ({
      inner: around(target, spreads[i]!, INNER),
      outer: around(target, spreads[i]!, OUTER),
      chance: chances[i]!,
      outside: marked[i] ? (value > target ? "above" : "below") : null,
    })),
  };
}

function markedBy(chances: readonly number[]): boolean[] {
  if (chances.length < FEWEST_FOR_MARKS) return chances.map(() => false);
  if (chances.length < MANY) return chances.map((chance) => chance < 2 * (1 - OUTER));
  return adjustedChances(chances).map((chance) => chance < FALSE_MARKS);
}

function around(target: number, spread: number, below: number): { low: number; high: number } {
  const half = normalQuantile(below) * spread;
  return { low: target - half, high: target + half };
}
