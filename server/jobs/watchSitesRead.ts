import { type Asking, asPerson } from "#db/asPerson";
import { numberedBatches } from "#db/queries/batches";
import { daySumsWithin, fuelSpansTouching } from "#db/queries/compare";
import { factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { daysOfMonth, monthOf, plusMonths } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import { firstDayOf, monthlyRecord, type RecordMonth } from "./monthRecord";
import { type SiteStream, STREAM_SUMS, streamsOf } from "./streams";

/** All that is watched of a site. */
export interface SiteWatched {
  readonly site: number;
  readonly streams: readonly SiteStream[];
  readonly record: readonly RecordMonth[];
}

/** Of a site that was read: the first month that its logs speak of, and whether its numbers are read for its record. */
export interface SiteRead extends SiteWatched {
  readonly first: string | null;
  readonly unbroken: boolean;
}

const BEGINNING = "0001-01-01";
/** Sums that a month's record is counted by. */
const RECORD_SUMS = ["here", "dry-yield"] as const;

/**
 * Sites with all their days, and their records up to the end of a month, as known at a size of the ledger: so each
 * question may have a transaction of its own, and others their turn between two of them.
 */
export async function readSites(
  asked: Asking,
  sites: readonly number[],
  month: string,
  size: number,
): Promise<SiteRead[]> {
  const days = sites.map((site) => ({ site, from: BEGINNING, to: "9999-12-31" }));
  const alone = async <T>(question: (tx: Tx) => Promise<T>): Promise<T> => {
    await new Promise(setImmediate);
    return asPerson(asked, question);
  };
  const facts = await alone((tx) => factsOf(tx, sites, size));
  const sums = bySite(await alone((tx) => daySumsWithin(tx, days, STREAM_SUMS, size)));
  const spans = bySite(await alone((tx) => fuelSpansTouching(tx, days, "9999-12-31", size)));
  const all: SiteRead[] = [];
  for (const site of sites) {
    const own = facts.filter((fact) => fact.site === site);
    const ownSums = sums.get(site) ?? [];
    const unbroken = isUnbroken(own, month);
    const numbered = unbroken ? await alone((tx) => numberedBatches(tx, site, size)) : [];
    await new Promise(setImmediate);
    const day = firstDayOf(ownSums);
    const first = day === null ? null : monthOf(day);
    all.push({
      site,
      first,
      unbroken,
      streams: streamsOf({ site, sums: ownSums, spans: spans.get(site) ?? [], facts: own }),
      record: first === null ? [] : monthlyRecord(site, ownSums, facts, numbered, { first, last: month }),
    });
  }
  return all;
}

/**
 * Sites of which nothing new came, their records carried on from one month to a later one: the months gone by since then
 * are owed, too. Sites whose batch numbers are read are left to be read again.
 */
export async function prolonged(
  asked: Asking,
  sites: readonly SiteRead[],
  from: string,
  last: string,
  size: number,
): Promise<SiteRead[]> {
  const ids = sites.map(({ site }) => site);
  const next = plusMonths(from, 1);
  const days = ids.map((site) => ({ site, from: daysOfMonth(next).from, to: daysOfMonth(last).to }));
  const { facts, sums } = await asPerson(asked, async (tx) => ({
    facts: await factsOf(tx, ids, size),
    sums: await daySumsWithin(tx, days, RECORD_SUMS, size),
  }));
  const [factsBy, sumsBy] = [bySite(facts), bySite(sums)];
  return sites.flatMap((site) => {
    const own = factsBy.get(site.site) ?? [];
    const unbroken = isUnbroken(own, last);
    if (site.unbroken || unbroken) return [];
    if (site.first === null) return [{ ...site, unbroken }];
    const [, first = next] = [site.first, next].sort(); // the later of the two
    const span = { first, last };
    const all = [...own, ...(factsBy.get(0) ?? [])];
    return [
      {
        ...site,
        unbroken,
        record: [...site.record, ...monthlyRecord(site.site, sumsBy.get(site.site) ?? [], all, [], span)],
      },
    ];
  });
}

function bySite<T extends { readonly site: number }>(all: readonly T[]): Map<number, T[]> {
  const found = new Map<number, T[]>();
  for (const one of all) {
    const own = found.get(one.site);
    if (own === undefined) found.set(one.site, [one]);
    else own.push(one);
  }
  return found;
}

function isUnbroken(facts: readonly Fact[], last: string): boolean {
  return inForce(facts, "numbering", daysOfMonth(last).to)?.unbroken ?? false;
}
