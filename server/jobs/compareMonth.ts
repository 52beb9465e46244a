import { daySumsWithin, factsOfMonth, fuelSpansTouching, type SiteDays, seriesNumbers } from "#db/queries/compare";
import { allSites } from "#db/queries/sites";
import { comparedSums } from "#db/queries/sums";
import type { Tx } from "#db/store";
import { fuelReach } from "#server/measures/fuelBook";
import { type MonthOfSite, monthFigures } from "#server/measures/monthFigures";
import type { Method } from "#server/terms/batch";
import { daysOfMonth, plusDays } from "#server/terms/days";
import { type Fact, type FactKind, inForce } from "#server/terms/facts";
import type { AsKnownOn } from "#server/terms/figure";
import type { FuelSpan } from "#server/terms/fuel";
import { bySite, groups } from "./bySite";

/** One site and drying method in a month, with what is declared of it. */
export interface SiteInMonth {
  readonly site: number;
  readonly code: string;
  readonly name: string;
  /** as logged; where nothing was, as declared */
  readonly method: Method | null;
  readonly facts: readonly Fact[];
  readonly figures: MonthOfSite;
}

export interface MonthRead {
  readonly sites: readonly SiteInMonth[];
  /** facts of the programme itself */
  readonly programme: readonly Fact[];
}

/** What a month's comparison needs to know; everything else declared stays where it is. */
const KINDS: readonly FactKind[] = [
  "name",
  "open",
  "closed",
  "nothing-produced",
  "schedule",
  "due",
  "numbering",
  "method",
  "main-fuel",
  "fresh-weighed",
  "dried-weighed",
  "plausible",
  "target",
  "fuel-factor",
];

/**
 * Reads a month of every site that the person may see, one query a table whatever the number of sites.
 *
 * Masses and times come from month sums. Fuel is read for the days that the month's fuel hangs on; batches only where a
 * site declared its numbers unbroken.
 */
export async function readMonth(tx: Tx, month: string, { ledgerSize: size, time }: AsKnownOn): Promise<MonthRead> {
  const period = daysOfMonth(month);
  const sites = await allSites(tx);
  const facts = bySite(await factsOfMonth(tx, KINDS, period.from, period.to, size));
  const sums = bySite(await comparedSums(tx, month, size));
  const spans = bySite(
    await monthSpans(
      tx,
      sites.map(({ id }) => id),
      period,
      size,
    ),
  );
  const several = (site: number) => new Set(sums(site).map(({ method }) => method)).size > 1;
  const fuelDays = sites
    .filter(({ id }) => spans(id).length > 0 || several(id))
    .map(({ id }) => ({ site: id, ...fuelReach(spans(id), period) }));
  const days = bySite(await daySumsWithin(tx, fuelDays, ["here", "fresh", "dry-yield"], size));
  const unbroken = sites.filter(({ id }) => inForce(facts(id), "numbering", period.to)?.unbroken);
  const numbered = bySite(
    await seriesNumbers(
      tx,
      unbroken.map(({ id }) => ({ site: id, ...period })),
      size,
    ),
  );
  return {
    programme: facts(0),
    sites: sites.flatMap(({ id, code }) => {
      const own = facts(id);
      const declared = inForce(own, "method", period.to)?.method ?? null;
      const used = [...new Set(sums(id).map(({ method }) => method))].sort();
      return (used.length === 0 ? [null] : used).map((method) => ({
        site: id,
        code,
        name: nameOf(own, period.to) ?? code,
        method: method ?? declared,
        facts: own,
        figures: monthFigures({
          month,
          method,
          sums: sums(id),
          fuelDays: days(id),
          spans: spans(id),
          facts: own,
          numbered: numbered(id),
          asKnownOn: { ledgerSize: size, time },
        }),
      }));
    }),
  };
}

/** The name in force, else the first that the site was given later: a site that opens next month is called by it today. */
function nameOf(facts: readonly Fact[], on: string): string | undefined {
  const later = facts
    .filter(({ kind, from }) => kind === "name" && from > on)
    .sort((a, b) => (a.from < b.from ? -1 : 1));
  return (inForce(facts, "name", on) ?? inForce(facts, "name", later[0]?.from ?? on))?.name;
}

/**
 * The spans of fuel that a month hangs on: those that touch it, and those that touch these, before and after.
 *
 * Which of two overlapping spans stands can hang on a third; so each round asks for what touches the days reached so far,
 * until nothing new comes. A span still open is closed by the next one of its fuel, however long after its first day.
 */
async function monthSpans(
  tx: Tx,
  sites: readonly number[],
  period: { from: string; to: string },
  size: number,
): Promise<FuelSpan[]> {
  const found = new Map<string, FuelSpan>();
  const reached = new Map(sites.map((site) => [site, period]));
  let asked: SiteDays[] = sites.map((site) => ({ site, ...period }));
  for (let round = 0; asked.length > 0; round++) {
    const spans = await fuelSpansTouching(tx, asked, round === 0 ? period.to : null, size);
    for (const span of spans)
      found.set([span.site, span.from, span.to, span.fuel, span.how, span.unit].join(" "), span);
    asked = widened(spans, reached);
  }
  return [...found.values()];
}

/** Widens what was reached by some spans; answers the days that this adds. */
function widened(spans: readonly FuelSpan[], reached: Map<number, { from: string; to: string }>): SiteDays[] {
  const added: SiteDays[] = [];
  for (const [site, mine] of groups(spans)) {
    const before = reached.get(site);
    if (before === undefined) continue;
    const from = [before.from, ...mine.map((span) => span.from)].sort()[0]!;
    const to = [before.to, ...mine.map((span) => span.to)].sort().at(-1)!;
    if (from < before.from) added.push({ site, from, to: plusDays(before.from, -1) });
    if (to > before.to) added.push({ site, from: plusDays(before.to, 1), to });
    reached.set(site, { from, to });
  }
  return added;
}
