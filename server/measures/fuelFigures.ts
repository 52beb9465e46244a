import { LEVEL } from "#server/statistics/interval";
import { normalQuantile, tQuantile } from "#server/statistics/quantile";
import { ratioOfSums } from "#server/statistics/ratio";
import { sumOf } from "#server/statistics/sum";
import { type Figure, type Interval, known, type NoFigure, type RestsOn, type Unit } from "#server/terms/figure";
import { type About, none } from "./about";
import { sideDeviation } from "./cylinderCount";
import { FEWEST_DAYS } from "./dryYield";
import type { Fuel } from "./fuelOf";
import type { FuelWindow, Given } from "./fuelWindows";

/** What fuel is divided by. */
export type FuelPer = "driven-off" | "dried" | "fresh" | "firing-day";

const PER: Record<
  FuelPer,
  { unit: Unit; den: (window: FuelWindow) => number; heat: (window: FuelWindow) => readonly Given[] }
> = {
  "driven-off": { unit: "MJ/kg", den: (w) => w.pairedFreshKg - w.driedKg, heat: (w) => w.pairedHeat },
  dried: { unit: "MJ/kg", den: (w) => w.driedKg, heat: (w) => w.pairedHeat },
  fresh: { unit: "MJ/kg", den: (w) => w.freshKg, heat: (w) => w.allHeat },
  "firing-day": { unit: "MJ/day", den: (w) => w.days.length, heat: (w) => w.allHeat },
};

/**
 * Fuel in MJ (net) per kg driven off, per kg dried, per kg fresh, or per firing day.
 *
 * Total heat over total mass of the same windows. Per kg driven off and per kg dried only the loads with both weights
 * count, with their share of the fuel by fresh mass. A firing day is a day with any load: preheating burns once a day
 * whatever the loads. Unknown while a window is open, when the kitchen shares the fuel, or when none is known.
 *
 * fuelPer("driven-off", [4.95 kg LPG; 60 kg fresh, of them 50 kg -> 16.5 kg]) // 4.95·50/60·47.3 / 33.5 = 5.824 MJ/kg
 */
export function fuelPer(per: FuelPer, fuel: Fuel, about: About): Figure {
  return ratioFigure(per, fuel, fuel.windows, about);
}

/** The same with the fuel that the kitchen shares: what drying took at the most. Null when nothing is shared. */
export function fuelPerAtMost(per: FuelPer, fuel: Fuel, about: About): Figure | null {
  const shares = fuel.windows.some((window) => window.unusable.shared > 0);
  return shares ? ratioFigure(per, fuel, fuel.windowsWithKitchen, about) : null;
}

/** Loads per firing day, over the days of the fuel figures: what a fire's preheating is shared by. */
export function loadsPerFiringDay(fuel: Fuel, about: About): Figure {
  const rests = fuelRests(fuel, fuel.windows);
  const days = sumOf(fuel.windows, (window) => window.days.length);
  if (days === 0) return none(reasonFor(fuel), "count", rests, about);
  const value = sumOf(fuel.windows, (window) => window.loads) / days;
  return known({ value, unit: "count", restsOn: rests, asKnownOn: about.asKnownOn });
}

function ratioFigure(per: FuelPer, fuel: Fuel, windows: readonly FuelWindow[], about: About): Figure {
  const { unit, den, heat } = PER[per];
  const used = windows.filter((window) => window.days.length > 0);
  const rests = fuelRests(fuel, windows);
  if (used.length === 0) return none(reasonFor(fuel), unit, rests, about);
  const pairs = used.map((window) => ({ num: sumOf(heat(window), (given) => given.bestMj), den: den(window) }));
  const found = ratioOfSums(pairs);
  if (found === null) return none(nothingUnder(per, used), unit, rests, about);
  const mass = sumOf(pairs, (pair) => pair.den);
  const se = found.clusters < FEWEST_DAYS ? null : found.se;
  const interval = fuelInterval(found.ratio, se, used.flatMap(heat), mass, found.clusters);
  return known({ value: found.ratio, unit, restsOn: rests, interval, asKnownOn: about.asKnownOn });
}

/**
 * Interval of a fuel figure: the scatter between windows (Student's t, from five windows on) and what is not known of
 * each span's amount (its low and high taken as the ends of a triangle), added in quadrature, each side for itself.
 * Where there is no scatter to speak of, never beyond the sum of all lows and highs. Null when nothing is uncertain.
 */
function fuelInterval(
  ratio: number,
  se: number | null,
  heat: readonly Given[],
  mass: number,
  windows: number,
): Interval | null {
  const scatter = se === null ? 0 : tQuantile((1 + LEVEL) / 2, windows - 1) * se;
  const side = (end: (given: Given) => number) => {
    const sd = Math.sqrt(sumOf(heat, (given) => sideDeviation(given.bestMj, end(given)) ** 2)) / mass;
    const furthest = Math.abs(sumOf(heat, (given) => end(given) - given.bestMj)) / mass;
    return Math.hypot(scatter, Math.min(normalQuantile((1 + LEVEL) / 2) * sd, furthest));
  };
  const below = side((given) => given.lowMj);
  const above = side((given) => given.highMj);
  if (se === null && below === 0 && above === 0) return null;
  return { low: ratio - below, high: ratio + above, level: LEVEL };
}

/** Windows used, of those that are here: closed ones and cylinders still on. Nobody owes windows. */
export function fuelRests(fuel: Fuel, windows: readonly FuelWindow[]): RestsOn {
  const used = windows.filter((window) => window.days.length > 0).length;
  return { used, here: windows.length + fuel.book.pending.length, owed: null, of: "fuel windows" };
}

function reasonFor(fuel: Fuel): NoFigure {
  const days = (why: keyof FuelWindow["unusable"]) => sumOf(fuel.windows, (window) => window.unusable[why]);
  if (days("shared") > 0) return "fuel-shared-with-kitchen";
  if (days("several-methods") > 0) return "fuel-of-several-methods";
  return whenNotKnown(fuel);
}

/** A fuel that is still burning, or known only later, has an open window; one without an amount is not known. */
export function whenNotKnown(fuel: Fuel): "fuel-window-open" | "no-fuel-known" {
  const waiting = fuel.book.open.some((span) => span.how === "pending" || span.best !== null);
  return waiting ? "fuel-window-open" : "no-fuel-known";
}

function nothingUnder(per: FuelPer, used: readonly FuelWindow[]): NoFigure {
  if (per === "fresh" || per === "firing-day") return "no-fresh-weight";
  return used.some((window) => window.pairedFreshKg > 0) ? "nothing-driven-off" : "no-batch-with-both-weights";
}
