import { type Between, between } from "#server/compare/between";
import { type Comparison, compareSites } from "#server/compare/compareSites";
import type { Entry } from "#server/compare/entry";
import { type ProgrammeMonth, programmeMonth } from "#server/compare/programme";
import { USABLE_MARK } from "#server/compare/restsOnLittle";
import { daysOfMonth } from "#server/terms/days";
import { FLOOR_MJ_PER_KG } from "#server/terms/factors";
import { type Fact, type FactValue, inForce } from "#server/terms/facts";
import type { AsKnownOn, Figure } from "#server/terms/figure";
import { bySite, groups } from "./bySite";
import type { MonthRead, SiteInMonth } from "./compareMonth";

/** A site's row: its figures among its like, and what stands beside them. */
export interface SiteRow extends Omit<Comparison["rows"][number], "site"> {
  readonly site: string;
  readonly name: string;
  readonly beside: {
    readonly fuelPerDried: Figure;
    readonly fuelPerFiringDay: Figure;
    readonly loadsPerFiringDay: Figure;
    readonly recordHere: Figure;
  };
  /** what the programme promised or wishes for, by measure; a mark to draw */
  readonly targets: Readonly<Partial<Record<keyof Entry["measured"], FactValue<"target">>>>;
}

/** A month of the programme's sites side by side. */
export interface MonthCompared {
  readonly month: string;
  readonly asKnownOn: AsKnownOn;
  readonly rows: readonly SiteRow[];
  readonly peers: readonly (Omit<Comparison["peers"][number], "sites"> & { readonly sites: readonly string[] })[];
  readonly programme: Omit<ProgrammeMonth, "tooFew" | "silent"> & {
    readonly tooFew: readonly string[];
    readonly silent: readonly string[];
  };
  /** share of what was owed that must be usable for a figure to be compared */
  readonly usableMark: number;
  /** least heat that water takes from 25 °C to vapour, MJ per kg */
  readonly floorMjPerKg: number;
}

/** Two sites set against each other; null where one of them has no entry in the month. */
export function twoOf(month: string, read: MonthRead, first: string, second: string): Between | null {
  const last = daysOfMonth(month).to;
  const [a, b] = [first, second].map((code) => read.sites.find((site) => site.code === code));
  return a === undefined || b === undefined ? null : between(entryOf(a, last), entryOf(b, last));
}

/** Sets what was read of a month side by side. */
export function comparisonOf(month: string, read: MonthRead, asKnownOn: AsKnownOn): MonthCompared {
  const { sites, programme } = read;
  const last = daysOfMonth(month).to;
  const usableMark = inForce(programme, "target", last, "record-usable")?.value ?? USABLE_MARK;
  const entries = sites.map((site) => entryOf(site, last));
  const { rows, peers } = compareSites(entries, usableMark);
  const code = new Map(sites.map(({ site, code }) => [site, code]));
  const partsOf = groups(sites);
  const rowsOf = bySite(rows);
  const codes = (of: readonly number[]) => of.map((site) => code.get(site) ?? "");
  const named = rows.map((row) => {
    const own = partsOf.get(row.site)!.find(({ method }) => method === row.method)!;
    const { fuelPerDried, fuelPerFiringDay, loadsPerFiringDay, recordHere } = own.figures;
    return {
      ...row,
      site: own.code,
      name: own.name,
      beside: { fuelPerDried, fuelPerFiringDay, loadsPerFiringDay, recordHere: recordHere.figure },
      targets: targetsOf(own.facts, programme, last),
    };
  });
  const { tooFew, silent, ...counts } = programmeMonth([...partsOf.keys()].map(wholeSite));
  return {
    month,
    asKnownOn,
    rows: named,
    peers: peers.map((one) => ({ ...one, sites: codes(one.sites) })),
    programme: { ...counts, tooFew: codes(tooFew), silent: codes(silent) },
    usableMark,
    floorMjPerKg: FLOOR_MJ_PER_KG,
  };

  function wholeSite(site: number) {
    const parts = partsOf.get(site)!;
    const { owed, here } = parts[0]!.figures;
    const cells = rowsOf(site).map((row) => row.cells["dry-yield"]);
    return {
      site,
      owedLog: owed.days.owing.length > 0,
      sentLog: here > 0,
      filedNothing: owed.days.nothingProduced.length > 0,
      freshKg: added(parts.map(({ figures }) => figures.freshKg)),
      driedKg: added(parts.map(({ figures }) => figures.driedKg)),
      tooFew: here > 0 && cells.every(({ figure, little }) => !figure.known || little !== null),
    };
  }
}

function entryOf({ site, method, facts, figures }: SiteInMonth, last: string): Entry {
  return {
    site,
    method,
    fuel: inForce(facts, "main-fuel", last)?.fuel ?? null,
    freshWeighed: inForce(facts, "fresh-weighed", last),
    driedWeighed: inForce(facts, "dried-weighed", last),
    measured: {
      "dry-yield": figures.dryYield,
      "fuel-per-driven-off": figures.fuelPerDrivenOff,
      "fresh-per-pan-hour": figures.freshPerPanHour,
      "minutes-per-kg": figures.minutesPerKg,
      "record-usable": figures.recordUsable,
    },
  };
}

function targetsOf(own: readonly Fact[], programme: readonly Fact[], last: string): SiteRow["targets"] {
  const of = (measure: keyof Entry["measured"]) => {
    const target = inForce(own, "target", last, measure) ?? inForce(programme, "target", last, measure);
    return target === null ? {} : { [measure]: target };
  };
  return {
    ...of("dry-yield"),
    ...of("fuel-per-driven-off"),
    ...of("fresh-per-pan-hour"),
    ...of("minutes-per-kg"),
    ...of("record-usable"),
  };
}

function added(kg: readonly (number | null)[]): number | null {
  return kg.reduce<number | null>((sum, one) => (one === null ? sum : (sum ?? 0) + one), null);
}
