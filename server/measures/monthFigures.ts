import { sumOf } from "#server/statistics/sum";
import type { Method } from "#server/terms/batch";
import { daysOfMonth } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import type { AsKnownOn, Figure, RestsOn } from "#server/terms/figure";
import type { FuelSpan } from "#server/terms/fuel";
import type { DaySum, MonthSum, Summed } from "#server/terms/sums";
import type { About } from "./about";
import { fuelPer, loadsPerFiringDay } from "./fuelFigures";
import { fuelOf } from "./fuelOf";
import { type MonthFigure, monthFuel, monthRatio, monthShare, turned } from "./monthRatio";
import type { Numbered } from "./numberedSeries";
import { type Owed, owed } from "./owed";

/** What the corridor fetches for one site's month; the sums of loads come from month sums, only fuel needs days. */
export interface MonthInput {
  readonly month: string;
  readonly method: Method | null;
  /** month sums of the site, every method */
  readonly sums: readonly MonthSum[];
  /** day sums of the days that the month's fuel reaches over; of the whole month where the site dried by several methods */
  readonly fuelDays: readonly DaySum[];
  /** spans of fuel that the month's fuel hangs on */
  readonly spans: readonly FuelSpan[];
  /** facts of this site */
  readonly facts: readonly Fact[];
  /** the month's batch numbers and the highest before it, where numbers are declared unbroken; else empty */
  readonly numbered: readonly Numbered[];
  readonly asKnownOn: AsKnownOn;
}

/** The figures of a site's month by which it is compared. The same as those of `siteMonth`, but for the last digits. */
export interface MonthOfSite {
  readonly owed: Owed;
  readonly here: number;
  readonly freshKg: number | null;
  readonly driedKg: number | null;
  readonly dryYield: MonthFigure;
  readonly freshPerPanHour: MonthFigure;
  readonly minutesPerKg: MonthFigure;
  readonly fuelPerDrivenOff: MonthFigure;
  readonly fuelPerDried: Figure;
  readonly fuelPerFiringDay: Figure;
  readonly loadsPerFiringDay: Figure;
  readonly recordHere: MonthFigure;
  readonly recordUsable: MonthFigure;
}

/** Works out a site's month from sums that are kept by the month, so that it costs the same whatever its loads. */
export function monthFigures(input: MonthInput): MonthOfSite {
  const { month, method, facts, asKnownOn } = input;
  const period = daysOfMonth(month);
  const all = input.sums.filter(({ batches }) => batches > 0);
  const several = new Set(all.map((sum) => sum.method)).size > 1;
  const sums = all.filter((sum) => method === null || sum.method === method);
  const due = owed(period, facts, input.numbered, all.length === 0 ? [] : [period.from]);
  const counted = (of: readonly MonthSum[], measure: Summed) => countOf(of, measure, due.of);
  const whole = (measure: Summed) =>
    several && due.of === "days" ? daysWith(input.fuelDays, measure, month) : counted(all, measure);
  const about: About = {
    asKnownOn,
    of: due.of,
    owed: several && method !== null ? null : due.count,
    plausible: inForce(facts, "plausible", period.to),
    loadsEach: due.loadsEach,
    nothing: sums.length > 0 ? null : due.why === null || due.why === "owed-not-declared" ? "nothing-logged" : due.why,
  };
  const rests = (measure: Summed): RestsOn => ({
    used: counted(sums, measure),
    here: counted(sums, "here"),
    owed: about.owed,
    of: due.of,
  });
  const usable = (used: number) => (due.count === null || due.count === 0 ? null : Math.min(1, used / due.count));
  const fuel = fuelOf(input.fuelDays, input.spans, facts, period, several ? method : null);
  const inWindows = new Set(fuel.windows.flatMap(({ days }) => days));
  const fuelUsed = input.fuelDays.filter(({ measure, day }) => measure === "dry-yield" && inWindows.has(day));
  const one = (measure: Summed) => sums.find((sum) => sum.measure === measure);
  const [paired, panTime] = [one("dry-yield"), one("pan-time")];
  return {
    owed: due,
    here: whole("here"),
    freshKg: one("fresh")?.num ?? null,
    driedKg: paired?.num ?? null,
    dryYield: monthRatio(paired, 1, rests("dry-yield"), "kg/kg", "no-batch-with-both-weights", about, {
      steps: one("scale"),
      usable: usable(counted(sums, "dry-yield")),
    }),
    freshPerPanHour: monthRatio(panTime, 1 / 60, rests("pan-time"), "kg/pan-hour", "no-batch-with-minutes", about, {
      usable: usable(counted(sums, "pan-time")),
    }),
    minutesPerKg: monthRatio(
      panTime && turned(panTime),
      1,
      rests("pan-time"),
      "minutes/kg",
      "no-batch-with-minutes",
      about,
      {
        usable: usable(counted(sums, "pan-time")),
      },
    ),
    fuelPerDrivenOff: monthFuel(fuel, about, usable(usedOf(fuelUsed, due.of))),
    fuelPerDried: fuelPer("dried", fuel, about),
    fuelPerFiringDay: fuelPer("firing-day", fuel, about),
    loadsPerFiringDay: loadsPerFiringDay(fuel, about),
    recordHere: monthShare(whole("here"), whole("here"), due, asKnownOn),
    recordUsable: monthShare(whole("dry-yield"), whole("here"), due, asKnownOn),
  };
}

function countOf(sums: readonly MonthSum[], measure: Summed, of: Owed["of"]): number {
  const chosen = sums.filter((sum) => sum.measure === measure);
  return sumOf(chosen, (sum) => (of === "days" ? sum.days : of === "loads" ? sum.loads : sum.batches));
}

function daysWith(days: readonly DaySum[], measure: Summed, month: string): number {
  return new Set(days.filter((sum) => sum.measure === measure && sum.day.startsWith(month)).map(({ day }) => day)).size;
}

function usedOf(days: readonly DaySum[], of: Owed["of"]): number {
  if (of === "days") return new Set(days.map(({ day }) => day)).size;
  return sumOf(days, (sum) => (of === "loads" ? sum.loads : sum.batches));
}
