import { LEVEL } from "#server/statistics/interval";
import { normalQuantile } from "#server/statistics/quantile";
import { sumOf } from "#server/statistics/sum";
import { FUEL_FACTORS, GWP100, type GwpSet } from "#server/terms/factors";
import type { Fact } from "#server/terms/facts";
import { type Figure, known, type NoFigure } from "#server/terms/figure";
import type { FuelSpan } from "#server/terms/fuel";
import { type About, none } from "./about";
import { sideDeviation } from "./cylinderCount";
import { co2KgPerUnit, mjPerUnit } from "./fuelEnergy";
import { whenNotKnown } from "./fuelFigures";
import type { Fuel } from "./fuelOf";

/** Totals of the fuel of a period, each a line of its own: they are not to be added up. */
export type FuelTotal = "heat" | "fossil-co2" | "biogenic-co2" | "electricity-co2" | "ch4-co2e" | "n2o-co2e";

/** What one unit of a span's fuel adds to a total; null when it cannot be told; undefined when it has no part in it. */
type PerUnit = (span: FuelSpan, facts: readonly Fact[], gwp: GwpSet) => number | null | undefined;

const PER_UNIT: Record<FuelTotal, PerUnit> = {
  heat: (span, facts) => mjPerUnit(span, facts),
  "fossil-co2": (span, facts) => (originOf(span) === "fossil" ? co2KgPerUnit(span, facts) : undefined),
  "biogenic-co2": (span, facts) => (originOf(span) === "biogenic" ? co2KgPerUnit(span, facts) : undefined),
  "electricity-co2": (span, facts) => (originOf(span) === "grid" ? co2KgPerUnit(span, facts) : undefined),
  "ch4-co2e": (span, facts, gwp) => {
    const potential = originOf(span) === "fossil" ? GWP100[gwp].ch4Fossil : GWP100[gwp].ch4Biogenic;
    return gasPerUnit(span, facts, "ch4KgPerTj", potential);
  },
  "n2o-co2e": (span, facts, gwp) => gasPerUnit(span, facts, "n2oKgPerTj", GWP100[gwp].n2o),
};

/** Kg of CO2e that the CH4 or N2O of one unit of a fuel comes to; undefined for electricity, which burns elsewhere. */
export function gasPerUnit(
  span: Pick<FuelSpan, "fuel" | "unit" | "to">,
  facts: readonly Fact[],
  gas: "ch4KgPerTj" | "n2oKgPerTj",
  potential: number,
): number | null | undefined {
  const perTj = FUEL_FACTORS[span.fuel][gas];
  if (perTj === null) return undefined;
  const mj = mjPerUnit(span, facts);
  return mj === null ? null : (mj * perTj.value * potential) / 1e6;
}

/**
 * One total of the fuel that ended in the period: MJ, or kg of CO2 or CO2e.
 *
 * Each span counts whole in the period in which it ends, also when nothing was dried on its days: it was burned. CO2 of
 * wood, charcoal, biogas and residues is a memo beside the fossil CO2 and never added to it; their CH4 and N2O are lines
 * of their own. Electricity has CO2 only once the programme names a factor. A period that burned wood alone has 0 kg of
 * fossil CO2; a period without known fuel has none. Unknown when the kitchen shares a fuel of this line (see
 * `fuelTotalAtMost`), and while nothing has ended.
 * Source: ipcc-2006-ncv, ipcc-2006-co2, ipcc-2006-small-burners, ipcc-ar6-gwp.
 *
 * fuelTotal("fossil-co2", [4.95 kg LPG]) // 4.95 · 47.3 · 63100 / 10⁶ = 14.774 kg
 */
export function fuelTotal(total: FuelTotal, fuel: Fuel, facts: readonly Fact[], about: About, gwp: GwpSet): Figure {
  const shared = fuel.book.ended.some((span) => span.shared && PER_UNIT[total](span, facts, gwp) !== undefined);
  return shared
    ? unknownTotal("fuel-shared-with-kitchen", total, fuel, about)
    : totalOf(total, fuel, facts, about, gwp);
}

/** The same with the fuel that the kitchen shares: what drying caused at the most. Null when nothing is shared. */
export function fuelTotalAtMost(
  total: FuelTotal,
  fuel: Fuel,
  facts: readonly Fact[],
  about: About,
  gwp: GwpSet,
): Figure | null {
  return fuel.book.ended.some((span) => span.shared) ? totalOf(total, fuel, facts, about, gwp) : null;
}

function totalOf(total: FuelTotal, fuel: Fuel, facts: readonly Fact[], about: About, gwp: GwpSet): Figure {
  const { ended } = fuel.book;
  if (ended.length === 0) return unknownTotal(whenNotKnown(fuel), total, fuel, about);
  const parts = ended.flatMap((span) => {
    const each = PER_UNIT[total](span, facts, gwp);
    return each === undefined ? [] : [{ span, each }];
  });
  const told = parts.flatMap(({ span, each }) => (each === null ? [] : [amounts(span, each)]));
  if (told.length < parts.length) {
    return unknownTotal(total === "electricity-co2" ? "no-factor-set" : "no-fuel-known", total, fuel, about);
  }
  const value = sumOf(told, (part) => part.best);
  const below = reach(told.map((part) => [part.best, part.low]));
  const above = reach(told.map((part) => [part.best, part.high]));
  const interval = below + above > 0 ? { low: value - below, high: value + above, level: LEVEL } : null;
  return known({ value, unit: unitOf(total), restsOn: rests(fuel), interval, asKnownOn: about.asKnownOn });
}

function amounts(span: FuelSpan, each: number): { low: number; best: number; high: number } {
  const best = span.best ?? 0;
  return { low: (span.low ?? best) * each, best: best * each, high: (span.high ?? best) * each };
}

/** Reach of a 95 % interval on one side: spans in quadrature, never beyond the sum of their ends. */
function reach(ends: readonly (readonly [best: number, end: number])[]): number {
  const sd = Math.sqrt(sumOf(ends, ([best, end]) => sideDeviation(best, end) ** 2));
  return Math.min(normalQuantile((1 + LEVEL) / 2) * sd, Math.abs(sumOf(ends, ([best, end]) => end - best)));
}

function unknownTotal(why: NoFigure, total: FuelTotal, fuel: Fuel, about: About): Figure {
  return none(why, unitOf(total), rests(fuel), about);
}

function rests(fuel: Fuel) {
  const here = fuel.book.ended.length + fuel.book.pending.length;
  return { used: fuel.book.ended.length, here, owed: null, of: "fuel windows" } as const;
}

function unitOf(total: FuelTotal): "MJ" | "kg" {
  return total === "heat" ? "MJ" : "kg";
}

function originOf(span: FuelSpan) {
  return FUEL_FACTORS[span.fuel].origin;
}
