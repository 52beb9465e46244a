import { sumOf } from "#server/statistics/sum";
import { daysBetween } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import type { FuelSpan } from "#server/terms/fuel";
import type { DaySum, Summed } from "#server/terms/sums";
import { mjPerUnit } from "./fuelEnergy";
import { byDay } from "./period";

/** What was dried on one day, for sharing out the fuel of a span. */
export interface DriedDay {
  readonly day: string;
  readonly loads: number;
  /** kg fresh of all loads; those not weighed are taken at the mean of the span */
  readonly freshKg: number;
  /** kg fresh and dried of the loads with both weights */
  readonly pairedFreshKg: number;
  readonly driedKg: number;
}

/** A span with its days and its heat per kg fresh that was dried on them. */
export interface SpanHeat {
  readonly span: FuelSpan;
  readonly days: readonly DriedDay[];
  readonly freshKg: number;
  readonly lowMj: number;
  readonly bestMj: number;
  readonly highMj: number;
}

/** Looks up what was dried on a day. */
export type DriedOn = (from: string, to: string) => DriedDay[];

/**
 * A look-up of the days on which anything was dried, from day sums.
 *
 * A load without a fresh weight burned fuel too: it is taken at the mean fresh weight per load of the days asked for,
 * so that its fuel is not laid on the loads that were weighed.
 */
export function driedDays(sums: readonly DaySum[]): DriedOn {
  const of = (measure: Summed) => new Map(byDay(sums, measure).map((day) => [day.day, day]));
  const here = of("here");
  const fresh = of("fresh");
  const paired = of("dry-yield");
  return (from, to) => {
    const days = daysBetween(from, to).flatMap((day) => here.get(day) ?? []);
    const weighed = days.flatMap(({ day }) => fresh.get(day) ?? []);
    const weighedLoads = sumOf(weighed, (day) => day.loads);
    const mean = weighedLoads > 0 ? sumOf(weighed, (day) => day.num) / weighedLoads : 0;
    return days.map(({ day, loads }) => {
      const known = fresh.get(day);
      return {
        day,
        loads,
        freshKg: (known?.num ?? 0) + (loads - (known?.loads ?? 0)) * mean,
        pairedFreshKg: paired.get(day)?.den ?? 0,
        driedKg: paired.get(day)?.num ?? 0,
      };
    });
  };
}

/** The heat of a span over its days; null when nothing was dried on them or its unit cannot be turned into heat. */
export function spanHeat(span: FuelSpan, dried: DriedOn, facts: readonly Fact[]): SpanHeat | null {
  const mj = mjPerUnit(span, facts);
  const days = dried(span.from, span.to);
  const freshKg = sumOf(days, (day) => day.freshKg);
  if (mj === null || span.best === null || !(freshKg > 0)) return null;
  return {
    span,
    days,
    freshKg,
    lowMj: (span.low ?? span.best) * mj,
    bestMj: span.best * mj,
    highMj: (span.high ?? span.best) * mj,
  };
}
