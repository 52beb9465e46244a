import { gaussLegendre } from "#server/statistics/gaussLegendre";
import { normalAbove, normalDensity } from "#server/statistics/normal";
import { FEWEST_FOR_LIMITS } from "./funnel";
import type { Estimate } from "./randomEffects";

/** The places, counted from the largest value, that a site may well hold among its like. Never one place alone. */
export interface Places {
  readonly from: number;
  readonly to: number;
  readonly of: number;
  /** chance that it is one of the lowest quarter */
  readonly inLowestQuarter: number;
}

/** Chance left out at either end. */
const LEFT_OUT = 0.05;
const RULE = gaussLegendre(16);
const REACH = 6;
const PANELS = 6;
/** Places of more sites than this tell nobody anything, and the work grows with the cube. */
export const MOST_FOR_PLACES = 50;

/**
 * From which to which place each site may stand, with 90 %, in the order given; place 1 is the largest value.
 * Empty for fewer than five sites and for more than fifty.
 *
 * Each site's level is taken as normal around its value. For a level x of one site, every other one lies above it with its own
 * chance, independently of the rest, so the number above is a sum of unequal coins; that is averaged over x. Adding up
 * pairwise chances without holding x fixed would make the spans too narrow: of ten equal sites each may hold any place.
 */
export function placesOf(sites: readonly Estimate[]): Places[] {
  if (sites.length < FEWEST_FOR_LIMITS || sites.length > MOST_FOR_PLACES) return [];
  return sites.map((site, i) => {
    const others = sites.filter((_, j) => j !== i);
    const chance = chanceOfPlaces(site, others);
    const lowest = Math.max(1, Math.floor(sites.length / 4));
    return {
      from: placeAt(chance, LEFT_OUT),
      to: placeAt(chance, 1 - LEFT_OUT),
      of: sites.length,
      inLowestQuarter: chance.slice(sites.length - lowest).reduce((sum, one) => sum + one, 0),
    };
  });
}

/** Chance of each place, the first being place 1. */
function chanceOfPlaces(site: Estimate, others: readonly Estimate[]): Float64Array {
  const total = new Float64Array(others.length + 1);
  const width = (2 * REACH) / PANELS;
  for (let panel = 0; panel < PANELS; panel++) {
    for (let i = 0; i < RULE.at.length; i++) {
      const z = -REACH + width * (panel + (1 + RULE.at[i]!) / 2);
      const weight = (RULE.weight[i]! * width * normalDensity(z)) / 2;
      const x = site.value + z * site.se;
      const above = numberAbove(others.map(({ value, se }) => normalAbove((x - value) / se)));
      for (let place = 0; place < total.length; place++) total[place] = total[place]! + weight * above[place]!;
    }
  }
  return total;
}

/** Chance that none, one, two, … of some independent things happen, each with its own chance. */
function numberAbove(chances: readonly number[]): Float64Array {
  const number = new Float64Array(chances.length + 1);
  number[0] = 1;
  chances.forEach((chance, seen) => {
    for (let n = seen + 1; n > 0; n--) number[n] = number[n]! * (1 - chance) + number[n - 1]! * chance;
    number[0] = number[0]! * (1 - chance);
  });
  return number;
}

function placeAt(chance: Float64Array, share: number): number {
  let sum = 0;
  for (let place = 0; place < chance.length; place++) {
    sum += chance[place]!;
    if (sum > share) return place + 1;
  }
  return chance.length;
}
