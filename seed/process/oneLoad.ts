import { FLOOR_MJ_PER_KG } from "#server/terms/factors";
import type { Chance } from "../chance";
import type { Nature } from "../site";
import type { Effects } from "../stories";

/** How the day goes for all its loads, as normal luck. */
export interface DayLuck {
  readonly feed: number;
  readonly pace: number;
  readonly fire: number;
}

export interface Dried {
  readonly freshKg: number;
  readonly driedKg: number;
  readonly minutes: number;
  readonly fuelMj: number;
}

/** Spread of a day's dry matter, time and stove: shares. */
const FEED_SPREAD = 0.035;
const PACE_SPREAD = 0.04;
const FIRE_SPREAD = 0.05;
/** heat for what stays in the pan, MJ per kg of it: dry matter warmed from 25 to 100 °C */
const HEAT_KEPT = 0.135;
const WET_FUEL: ReadonlySet<string> = new Set(["firewood", "charcoal"]);

/**
 * One load by mass balance: what came in, what is left of it at the final moisture, and the heat that drove the
 * rest off.
 */
export function oneLoad(nature: Nature, effects: Effects, luck: DayLuck, chance: Chance): Dried {
  const size = Math.max(0.5, Math.min(1.5, 1 + nature.loadSpread * chance.normal()));
  const freshKg = nature.loadKg * size;
  const dryShare = (1 - nature.freshMoisture - effects.freshMoisture) * Math.exp(FEED_SPREAD * luck.feed);
  const driedMoisture = Math.max(0.03, nature.driedMoisture + effects.driedMoisture + 0.008 * chance.normal());
  const kept = freshKg * dryShare * (1 - nature.loss) * Math.exp(0.012 * chance.normal());
  const driedKg = kept / (1 - driedMoisture);
  const waterKg = Math.max(0, freshKg * (1 - dryShare) - (driedKg - kept));
  const usualWater =
    nature.freshMoisture - ((1 - nature.freshMoisture) * nature.driedMoisture) / (1 - nature.driedMoisture);
  const minutes =
    nature.minutesPerLoad *
    size ** 0.7 *
    (waterKg / freshKg / usualWater) *
    effects.minutes *
    Math.exp(PACE_SPREAD * luck.pace + 0.05 * chance.normal());
  const stove = WET_FUEL.has(nature.fuel) ? nature.efficiency * (1 - 0.12 * effects.wetness) : nature.efficiency;
  const heatMj = waterKg * FLOOR_MJ_PER_KG + driedKg * HEAT_KEPT;
  const fuelMj = (heatMj / stove) * effects.fuel * Math.exp(FIRE_SPREAD * luck.fire);
  return { freshKg: freshKg + effects.tareKg, driedKg: driedKg + effects.tareKg, minutes: Math.round(minutes), fuelMj };
}
