import type { Method } from "#server/terms/batch";
import type { GwpSet } from "#server/terms/factors";
import { type Fact, inForce } from "#server/terms/facts";
import type { AsKnownOn, Figure, NoFigure } from "#server/terms/figure";
import type { FuelSpan } from "#server/terms/fuel";
import type { DaySum } from "#server/terms/sums";
import type { About } from "./about";
import { type Check, figureChecks, recordChecks } from "./checks";
import { type Completeness, completeness } from "./completeness";
import { type Fuel, fuelOf } from "./fuelOf";
import { type FuelReport, fuelReport } from "./fuelReport";
import { type MassBalance, massBalance } from "./massBalance";
import type { Numbered } from "./numberedSeries";
import { type Owed, owed } from "./owed";
import { byDay, type Period, within } from "./period";
import { type Measure, siteFigures } from "./siteFigures";

/** What the corridor fetches for one site. */
export interface SiteInput {
  readonly site: number;
  readonly period: Period;
  /** one drying method, or null for everything the site dried */
  readonly method: Method | null;
  /** all day sums of the site, every method, from `fuelReach(spans, period).from` to the period's end */
  readonly sums: readonly DaySum[];
  /** all spans of fuel of the site, of whatever days */
  readonly spans: readonly FuelSpan[];
  /** facts of this site, as they were known then */
  readonly facts: readonly Fact[];
  /** all numbered batches of the site, where its numbers are declared unbroken; else empty */
  readonly numbered: readonly Numbered[];
  readonly asKnownOn: AsKnownOn;
  /** set of warming potentials; the latest when left out */
  readonly gwp?: GwpSet;
}

/** Everything worked out for one site and period, so that pages and commands show the same. */
export interface SiteMonth {
  readonly site: number;
  readonly period: Period;
  readonly method: Method | null;
  readonly figures: Readonly<Record<Measure, Figure>>;
  /** of the site as a whole: what is owed is not declared for one method */
  readonly completeness: Completeness;
  readonly massBalance: MassBalance;
  readonly fuel: FuelReport;
  readonly checks: readonly Check[];
}

/**
 * Works out every figure of a site's period: a month, a quarter or any days.
 *
 * With a method the figures are of that method's loads alone, and what is owed is known to them only where the site dried
 * by no other in the period.
 */
export function siteMonth(input: SiteInput): SiteMonth {
  const { site, period, method, asKnownOn, gwp = "AR6" } = input;
  const [given, spans, facts] = [ofSite(input.sums, site), ofSite(input.spans, site), ofSite(input.facts, site)];
  const all = within(given, period);
  const sums = all.filter((sum) => method === null || sum.method === method);
  const due = owed(
    period,
    facts,
    input.numbered,
    byDay(all, "here").map((day) => day.day),
  );
  const fuel = fuelOf(given, spans, facts, period, method);
  const wholeFuel = method === null ? fuel : fuelOf(given, spans, facts, period, null);
  const record = completeness(all, due, daysOf(wholeFuel), asKnownOn);
  const about: About = {
    asKnownOn,
    of: due.of,
    owed: sums.length === all.length ? due.count : null,
    plausible: inForce(facts, "plausible", period.to),
    loadsEach: due.loadsEach,
    nothing: sums.length > 0 ? null : nothingHere(due),
  };
  const balance = massBalance(sums, facts, about);
  const figures = siteFigures({ sums, facts, fuel, record, balance, about, gwp });
  const report = fuelReport(fuel, given, facts, about, gwp);
  const checked = { sums, facts, completeness: record, balance, fuel, firepowerKw: report.firepowerKw, figures };
  return {
    site,
    period,
    method,
    figures,
    completeness: record,
    massBalance: balance,
    fuel: report,
    checks: [...recordChecks({ ...checked, sums: all }), ...figureChecks(checked)],
  };
}

function ofSite<T extends { readonly site: number }>(rows: readonly T[], site: number): T[] {
  return rows.filter((row) => row.site === site);
}

function daysOf(fuel: Fuel): ReadonlySet<string> {
  return new Set(fuel.windows.flatMap((window) => window.days));
}

/** Why nothing is here: the site had nothing to log, or it logged nothing. */
function nothingHere({ why }: Owed): NoFigure {
  return why === null || why === "owed-not-declared" ? "nothing-logged" : why;
}
