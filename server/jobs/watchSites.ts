import { asPerson } from "#db/asPerson";
import { numberedBatches } from "#db/queries/batches";
import { daySumsWithin, fuelSpansTouching } from "#db/queries/compare";
import { allSites, factsOf } from "#db/queries/sites";
import { sitesTouchedAfter } from "#db/queries/watched";
import type { Store, Tx } from "#db/store";
import { daysOfMonth, monthOf, plusMonths } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import { OPERATOR } from "#server/terms/person";
import { firstDayOf, monthlyRecord, type RecordMonth } from "./monthRecord";
import { type SiteStream, STREAM_SUMS, streamsOf } from "./streams";

/** All that is watched of a site. */
export interface SiteWatched {
  readonly site: number;
  readonly streams: readonly SiteStream[];
  readonly record: readonly RecordMonth[];
}

/** What a ledger of some size has of every site. */
export interface SitesWatched {
  readonly size: number;
  readonly sites: readonly SiteWatched[];
  /** the last month that is looked at */
  readonly last: string;
  /** facts of the programme */
  readonly programme: readonly Fact[];
}

const BEGINNING = "0001-01-01";
/** Sums that a month's record is counted by. */
const RECORD_SUMS = ["here", "dry-yield"] as const;
/** Sites read in one transaction: others get their turn in between. */
const AT_ONCE = 10;

/** Of a site that was read: the first month that its logs speak of, and whether its numbers are read for its record. */
interface SiteRead extends SiteWatched {
  readonly first: string | null;
  readonly unbroken: boolean;
}

interface SitesRead extends SitesWatched {
  readonly sites: readonly SiteRead[];
}

/** What was read last, so that of a later size only the sites that changed are read again. */
const here: typeof globalThis & { evendrySites?: WeakMap<Store, SitesRead> } = globalThis;
here.evendrySites ??= new WeakMap();
const kept = here.evendrySites;

/** Every site's streams, and its record up to the end of a month, as known at a size of the ledger. */
export async function sitesWatched(store: Store, last: string, size: number): Promise<SitesWatched> {
  const before = kept.get(store);
  const asked = { store, person: OPERATOR.id };
  const { ids, programme, touched } = await asPerson(asked, async (tx) => ({
    ids: (await allSites(tx)).map(({ id }) => id).sort((a, b) => a - b),
    programme: (await factsOf(tx, [], size)).filter(({ site }) => site === 0),
    touched:
      before === undefined || before.size > size || before.last > last
        ? null
        : await sitesTouchedAfter(tx, before.size),
  }));
  const usable = before !== undefined && touched !== null && !touched.has(0) ? before : null;
  const same = usable?.sites.filter(({ site }) => !touched?.has(site)) ?? [];
  const known = usable === null || usable.last === last ? same : await prolonged(asked, same, usable.last, last, size);
  const again = new Map(known.map((one) => [one.site, one]));
  const missing = ids.filter((site) => !again.has(site));
  for (const some of inParts(missing))
    for (const one of await asPerson(asked, (tx) => read(tx, some, last, size))) again.set(one.site, one);
  const now = { size, last, programme, sites: ids.flatMap((site) => again.get(site) ?? []) };
  if (before === undefined || size >= before.size) kept.set(store, now);
  return now;
}

function inParts(sites: readonly number[]): number[][] {
  return Array.from({ length: Math.ceil(sites.length / AT_ONCE) }, (_, i) =>
    sites.slice(i * AT_ONCE, (i + 1) * AT_ONCE),
  );
}

/**
 * Sites of which nothing new came, their records carried on from one month to a later one: the months gone by since then
 * are owed, too. Sites whose batch numbers are read are left to be read again.
 */
async function prolonged(
  asked: Parameters<typeof asPerson>[0],
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
    const span = { first: site.first > next ? site.first : next, last };
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

/** One site's streams, from those that are at hand where they are of that size. */
export async function siteWatched(store: Store, site: number, month: string, size: number): Promise<SiteWatched> {
  const before = kept.get(store);
  const here =
    before?.size === size && before.last === month ? before.sites.find((one) => one.site === site) : undefined;
  if (here !== undefined) return here;
  const [now] = await asPerson({ store, person: OPERATOR.id }, (tx) => read(tx, [site], month, size));
  if (now === undefined) throw new Error(`site ${site} was asked for and not read`);
  return now;
}

async function read(tx: Tx, sites: readonly number[], month: string, size: number): Promise<SiteRead[]> {
  const days = sites.map((site) => ({ site, from: BEGINNING, to: "9999-12-31" }));
  const facts = await factsOf(tx, sites, size);
  const sums = bySite(await daySumsWithin(tx, days, STREAM_SUMS, size));
  const spans = bySite(await fuelSpansTouching(tx, days, "9999-12-31", size));
  const all: SiteRead[] = [];
  for (const site of sites) {
    const own = facts.filter((fact) => fact.site === site);
    const ownSums = sums.get(site) ?? [];
    const unbroken = isUnbroken(own, month);
    const numbered = unbroken ? await numberedBatches(tx, site, size) : [];
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
