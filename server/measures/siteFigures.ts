import type { GwpSet } from "#server/terms/factors";
import type { Fact } from "#server/terms/facts";
import type { Figure } from "#server/terms/figure";
import type { DaySum } from "#server/terms/sums";
import type { About } from "./about";
import type { Completeness } from "./completeness";
import { dryYield } from "./dryYield";
import { fuelTotal } from "./emissions";
import { fuelPer, loadsPerFiringDay } from "./fuelFigures";
import type { Fuel } from "./fuelOf";
import type { MassBalance } from "./massBalance";
import { driedKg, drivenOff, freshKg } from "./masses";
import { freshPerDay, freshPerPanHour, minutesPerKg, roastingShare } from "./throughput";

/** What the figures of a site's period are worked out from. */
export interface Ingredients {
  readonly sums: readonly DaySum[];
  readonly facts: readonly Fact[];
  readonly fuel: Fuel;
  readonly record: Completeness;
  readonly balance: MassBalance;
  readonly about: About;
  readonly gwp: GwpSet;
}

/** Names of the figures of a site's period, as commands and files print them, in the order in which they are shown. */
export const MEASURES = [
  "fresh",
  "dried",
  "dry-yield",
  "driven-off",
  "fresh-per-day",
  "fresh-per-pan-hour",
  "roasting-share",
  "minutes-per-kg",
  "fuel-per-driven-off",
  "fuel-per-dried",
  "fuel-per-fresh",
  "fuel-per-firing-day",
  "loads-per-firing-day",
  "heat",
  "fossil-co2",
  "biogenic-co2",
  "electricity-co2",
  "ch4-co2e",
  "n2o-co2e",
  "record-here",
  "record-in-time",
  "record-usable",
  "moisture-left",
] as const;
export type Measure = (typeof MEASURES)[number];

/** How each figure is worked out. A new measure is a name above and a line here. */
export function siteFigures(ingredients: Ingredients): Record<Measure, Figure> {
  const { sums, facts, fuel, record, balance, about, gwp } = ingredients;
  return {
    fresh: freshKg(sums, about),
    dried: driedKg(sums, about),
    "dry-yield": dryYield(sums, about),
    "driven-off": drivenOff(sums, about),
    "fresh-per-day": freshPerDay(sums, about),
    "fresh-per-pan-hour": freshPerPanHour(sums, about),
    "roasting-share": roastingShare(sums, facts, about),
    "minutes-per-kg": minutesPerKg(sums, about),
    "fuel-per-driven-off": fuelPer("driven-off", fuel, about),
    "fuel-per-dried": fuelPer("dried", fuel, about),
    "fuel-per-fresh": fuelPer("fresh", fuel, about),
    "fuel-per-firing-day": fuelPer("firing-day", fuel, about),
    "loads-per-firing-day": loadsPerFiringDay(fuel, about),
    heat: fuelTotal("heat", fuel, facts, about, gwp),
    "fossil-co2": fuelTotal("fossil-co2", fuel, facts, about, gwp),
    "biogenic-co2": fuelTotal("biogenic-co2", fuel, facts, about, gwp),
    "electricity-co2": fuelTotal("electricity-co2", fuel, facts, about, gwp),
    "ch4-co2e": fuelTotal("ch4-co2e", fuel, facts, about, gwp),
    "n2o-co2e": fuelTotal("n2o-co2e", fuel, facts, about, gwp),
    "record-here": record.hereShare,
    "record-in-time": record.inTimeShare,
    "record-usable": record.usableShares["dry-yield"],
    "moisture-left": balance.impliedMoisture,
  };
}
