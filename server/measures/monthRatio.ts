import { LEVEL, tInterval } from "#server/statistics/interval";
import { tQuantile } from "#server/statistics/quantile";
import { ratioFromSums } from "#server/statistics/ratio";
import { sumOf } from "#server/statistics/sum";
import {
  type AsKnownOn,
  type Figure,
  known,
  type NoFigure,
  type RestsOn,
  type Unit,
  unknown,
} from "#server/terms/figure";
import type { MonthSum } from "#server/terms/sums";
import type { About } from "./about";
import { FEWEST_DAYS } from "./dryYield";
import { fuelPer } from "./fuelFigures";
import type { Fuel } from "./fuelOf";
import { ratioRange } from "./missingRange";
import type { Owed } from "./owed";

/** A figure with its error, what it is worked out from, and how much of what was owed it could use. */
export interface MonthFigure {
  readonly figure: Figure;
  readonly se: number | null;
  readonly clusters: number;
  readonly mass: number;
  readonly usable: number | null;
}

/** A month's ratio with its interval by day; `per` turns the divisor into the figure's own unit. */
export function monthRatio(
  sum: MonthSum | undefined,
  per: number,
  restsOn: RestsOn,
  unit: Unit,
  why: NoFigure,
  about: About,
  { steps, usable }: { steps?: MonthSum | undefined; usable: number | null },
): MonthFigure {
  const scaled = sum && { ...sum, den: sum.den * per, den2: sum.den2 * per * per, numDen: sum.numDen * per };
  const found = scaled === undefined ? null : ratioFromSums({ ...scaled, clusters: scaled.days });
  if (found === null || scaled === undefined) {
    const none = unknown({ why: about.nothing ?? why, unit, restsOn, asKnownOn: about.asKnownOn });
    return { figure: none, se: null, clusters: 0, mass: 0, usable };
  }
  const { ratio, clusters } = found;
  // the steps of the scales are part of what is not known: (Σ var(dried) + R² Σ var(fresh)) / Σfresh²
  const scale = steps === undefined ? 0 : (steps.num + ratio * ratio * steps.den) / (scaled.den * scaled.den);
  const se = found.se === null || clusters < FEWEST_DAYS ? null : Math.sqrt(found.se ** 2 + scale);
  const figure = known({
    value: ratio,
    unit,
    restsOn,
    interval: se === null ? null : tInterval(ratio, se, clusters - 1, LEVEL),
    missingRange: unit === "kg/kg" ? ratioRange(scaled.num, scaled.den, restsOn, about) : null,
    asKnownOn: about.asKnownOn,
  });
  return { figure, se, clusters, mass: scaled.den, usable };
}

/** The same month with numerator and denominator exchanged. */
export function turned(sum: MonthSum): MonthSum {
  return { ...sum, num: sum.den, den: sum.num, num2: sum.den2, den2: sum.num2 };
}

/** Fuel per kg driven off; its error is taken from its interval, which holds what is not known of the amounts too. */
export function monthFuel(fuel: Fuel, about: About, usable: number | null): MonthFigure {
  const figure = fuelPer("driven-off", fuel, about);
  const windows = fuel.windows.filter(({ days }) => days.length > 0);
  const mass = sumOf(windows, ({ pairedFreshKg, driedKg }) => pairedFreshKg - driedKg);
  const clusters = windows.length;
  const interval = figure.known && clusters >= FEWEST_DAYS ? figure.interval : null;
  const se =
    interval === null ? null : (interval.high - interval.low) / 2 / tQuantile((1 + interval.level) / 2, clusters - 1);
  return { figure, se, clusters, mass, usable };
}

/** Share of what was owed; unknown where nothing was owed or nobody declared it. */
export function monthShare(used: number, here: number, due: Owed, asKnownOn: AsKnownOn): MonthFigure {
  const restsOn = { used, here, owed: due.count, of: due.of };
  const [none, mass] = [{ unit: "share", restsOn, asKnownOn } as const, due.count ?? 0];
  if (due.count === null || due.count === 0)
    return { figure: unknown({ ...none, why: due.why ?? "nothing-owed" }), se: null, clusters: 0, mass, usable: null };
  const value = Math.min(used, due.count) / due.count;
  return { figure: known({ ...none, value }), se: null, clusters: due.count, mass, usable: value };
}
