import type { Method } from "#server/terms/batch";
import { type Fact, inForce } from "#server/terms/facts";
import type { AsKnownOn, Figure } from "#server/terms/figure";
import type { FuelSpan } from "#server/terms/fuel";
import type { DaySum } from "#server/terms/sums";
import type { About } from "./about";
import { type Completeness, completeness } from "./completeness";
import { dryYield } from "./dryYield";
import { driedKg, drivenOff, freshKg } from "./masses";
import type { Numbered } from "./numberedSeries";
import { owed } from "./owed";
import { byDay, type Period, within } from "./period";
import { freshPerDay, freshPerPanHour, minutesPerKg, roastingShare } from "./throughput";

/** What the corridor fetches for one site. */
export interface SiteInput {
  readonly site: number;
  readonly period: Period;
  /** one drying method, or null for everything the site dried */
  readonly method: Method | null;
  /** all day sums of the site, every method, from `fuelReach(spans, period).from` to the period's end */
  readonly sums: readonly DaySum[];
  readonly spans: readonly FuelSpan[];
  /** facts of this site, as they were known then */
  readonly facts: readonly Fact[];
  /** all numbered batches of the site, where its numbers are declared unbroken; else empty */
  readonly numbered: readonly Numbered[];
  readonly asKnownOn: AsKnownOn;
}

/** Names of the figures of a site's period, as commands and files print them. */
export const MEASURES = [
  "fresh",
  "dried",
  "dry-yield",
  "driven-off",
  "fresh-per-day",
  "fresh-per-pan-hour",
  "roasting-share",
  "minutes-per-kg",
  "record-here",
  "record-in-time",
  "record-usable",
] as const;
export type Measure = (typeof MEASURES)[number];

/** Everything worked out for one site and period, so that pages and commands show the same. */
export interface SiteMonth {
  readonly site: number;
  readonly period: Period;
  readonly method: Method | null;
  readonly figures: Readonly<Record<Measure, Figure>>;
  readonly completeness: Completeness;
}

/** Works out every figure of a site's period. A period may be a month, a quarter or any days. */
export function siteMonth(input: SiteInput): SiteMonth {
  const { site, period, method, facts, asKnownOn } = input;
  const all = within(input.sums, period);
  const sums = all.filter((sum) => method === null || sum.method === method);
  const logged = byDay(all, "here").map((day) => day.day);
  const due = owed(period, facts, input.numbered, logged);
  // what is owed is declared for the site as a whole: it says nothing about one of several methods
  const alone = sums.length === all.length;
  const here = completeness(all, due, asKnownOn);
  const about: About = {
    asKnownOn,
    of: due.of,
    owed: alone ? due.count : null,
    plausible: inForce(facts, "plausible", period.to),
    loadsEach: due.loadsEach,
    whenNothing: due.why === null || due.why === "owed-not-declared" ? "nothing-logged" : due.why,
  };
  return {
    site,
    period,
    method,
    completeness: here,
    figures: {
      fresh: freshKg(sums, about),
      dried: driedKg(sums, about),
      "dry-yield": dryYield(sums, about),
      "driven-off": drivenOff(sums, about),
      "fresh-per-day": freshPerDay(sums, about),
      "fresh-per-pan-hour": freshPerPanHour(sums, about),
      "roasting-share": roastingShare(sums, facts, about),
      "minutes-per-kg": minutesPerKg(sums, about),
      "record-here": here.hereShare,
      "record-in-time": here.inTimeShare,
      "record-usable": here.usableShares["dry-yield"],
    },
  };
}
