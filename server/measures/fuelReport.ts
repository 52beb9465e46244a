import { sumOf } from "#server/statistics/sum";
import { FLOOR_MJ_PER_KG, type GwpSet } from "#server/terms/factors";
import type { Fact } from "#server/terms/facts";
import type { Figure } from "#server/terms/figure";
import type { Fuel as FuelName, FuelSpan, FuelUnit, HowKnown } from "#server/terms/fuel";
import type { DaySum } from "#server/terms/sums";
import type { About } from "./about";
import { type FuelTotal, fuelTotalAtMost } from "./emissions";
import { firepowerKw } from "./fuelEnergy";
import { type FuelPer, fuelPerAtMost } from "./fuelFigures";
import type { Fuel } from "./fuelOf";
import type { FuelWindow } from "./fuelWindows";
import { byDay } from "./period";

/** One fuel of the period in its own unit, of the spans that ended in it. */
export interface FuelUsed {
  readonly fuel: FuelName;
  readonly unit: FuelUnit;
  readonly low: number;
  readonly best: number;
  readonly high: number;
  readonly how: readonly HowKnown[];
  readonly shared: boolean;
}

/** What stands beside the fuel figures of a period. */
export interface FuelReport {
  readonly used: readonly FuelUsed[];
  readonly windows: readonly FuelWindow[];
  readonly pending: readonly FuelSpan[];
  readonly leftOut: Fuel["leftOut"];
  /** upper bounds with the fuel that the kitchen shares; null where nothing is shared */
  readonly atMost: Readonly<Record<FuelPer | FuelTotal, Figure | null>>;
  /** least heat that water takes from 25 °C to vapour, MJ per kg: a line to draw, not a target */
  readonly floorMjPerKg: number;
  /** mean power of a pan's fire over the windows; null unless every load of them has its minutes */
  readonly firepowerKw: number | null;
}

export function fuelReport(
  fuel: Fuel,
  sums: readonly DaySum[],
  facts: readonly Fact[],
  about: About,
  gwp: GwpSet,
): FuelReport {
  const per = (of: FuelPer) => fuelPerAtMost(of, fuel, about);
  const total = (of: FuelTotal) => fuelTotalAtMost(of, fuel, facts, about, gwp);
  return {
    used: usedOf(fuel),
    windows: fuel.windows,
    pending: fuel.book.pending,
    leftOut: fuel.leftOut,
    atMost: {
      "driven-off": per("driven-off"),
      dried: per("dried"),
      fresh: per("fresh"),
      "firing-day": per("firing-day"),
      heat: total("heat"),
      "fossil-co2": total("fossil-co2"),
      "biogenic-co2": total("biogenic-co2"),
      "electricity-co2": total("electricity-co2"),
      "ch4-co2e": total("ch4-co2e"),
      "n2o-co2e": total("n2o-co2e"),
    },
    floorMjPerKg: FLOOR_MJ_PER_KG,
    firepowerKw: meanFirepower(fuel, sums),
  };
}

function usedOf(fuel: Fuel): FuelUsed[] {
  const kinds = [...new Set(fuel.book.ended.map((span) => `${span.fuel} ${span.unit}`))].sort();
  return kinds.map((kind) => {
    const spans = fuel.book.ended.filter((span) => `${span.fuel} ${span.unit}` === kind);
    const { fuel: name, unit } = spans[0]!;
    return {
      fuel: name,
      unit,
      low: sumOf(spans, (span) => span.low ?? span.best ?? 0),
      best: sumOf(spans, (span) => span.best ?? 0),
      high: sumOf(spans, (span) => span.high ?? span.best ?? 0),
      how: [...new Set(spans.map((span) => span.how))].sort(),
      shared: spans.some((span) => span.shared),
    };
  });
}

function meanFirepower(fuel: Fuel, sums: readonly DaySum[]): number | null {
  const days = new Set(fuel.windows.flatMap((window) => window.days));
  const minutes = byDay(sums, "minutes").filter(({ day }) => days.has(day));
  const loads = sumOf(fuel.windows, (window) => window.loads);
  const panHours = sumOf(minutes, (day) => day.num) / 60;
  if (loads === 0 || sumOf(minutes, (day) => day.loads) < loads || panHours === 0) return null;
  const heat = fuel.windows.flatMap((window) => window.allHeat);
  return firepowerKw(
    sumOf(heat, (given) => given.bestMj),
    panHours,
  );
}
