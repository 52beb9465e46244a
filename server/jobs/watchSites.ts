import { asPerson } from "#db/asPerson";
import { numberedBatches } from "#db/queries/batches";
import { daySumsWithin, fuelSpansTouching } from "#db/queries/compare";
import { allSites, factsOf } from "#db/queries/sites";
import { sitesTouchedAfter } from "#db/queries/watched";
import type { Store, Tx } from "#db/store";
import { daysOfMonth } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import { OPERATOR } from "#server/terms/person";
import { monthlyRecord, type RecordMonth } from "./monthRecord";
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
/** Sites read in one transaction: others get their turn in between. */
const AT_ONCE = 10;

/** What was read last, so that of a later size only the sites that changed are read again. */
const here: typeof globalThis & { evendrySites?: WeakMap<Store, SitesWatched> } = globalThis;
here.evendrySites ??= new WeakMap();
const kept = here.evendrySites;

/** Every site's streams up to the end of a month, as known at a size of the ledger. */
export async function sitesWatched(store: Store, last: string, size: number): Promise<SitesWatched> {
  const before = kept.get(store);
  const asked = { store, person: OPERATOR.id };
  const { ids, programme, touched } = await asPerson(asked, async (tx) => ({
    ids: (await allSites(tx)).map(({ id }) => id).sort((a, b) => a - b),
    programme: (await factsOf(tx, [], size)).filter(({ site }) => site === 0),
    touched:
      before === undefined || before.size > size || before.last !== last
        ? null
        : await sitesTouchedAfter(tx, before.size),
  }));
  const usable = touched !== null && !touched.has(0) ? before : undefined;
  const again = new Map(
    (usable?.sites ?? []).filter(({ site }) => touched?.has(site) !== true).map((one) => [one.site, one]),
  );
  const missing = ids.filter((site) => !again.has(site));
  for (let at = 0; at < missing.length; at += AT_ONCE) {
    const some = missing.slice(at, at + AT_ONCE);
    for (const one of await asPerson(asked, (tx) => read(tx, some, last, size))) again.set(one.site, one);
  }
  const now = { size, last, programme, sites: ids.flatMap((site) => again.get(site) ?? []) };
  if (before === undefined || size >= before.size) kept.set(store, now);
  return now;
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

async function read(tx: Tx, sites: readonly number[], month: string, size: number): Promise<SiteWatched[]> {
  const { to: last } = daysOfMonth(month);
  const days = sites.map((site) => ({ site, from: BEGINNING, to: "9999-12-31" }));
  const facts = await factsOf(tx, sites, size);
  const sums = await daySumsWithin(tx, days, STREAM_SUMS, size);
  const spans = await fuelSpansTouching(tx, days, "9999-12-31", size);
  const all: SiteWatched[] = [];
  for (const site of sites) {
    const own = facts.filter((fact) => fact.site === site);
    const ownSums = sums.filter((sum) => sum.site === site);
    const unbroken = inForce(own, "numbering", last)?.unbroken ?? false;
    const numbered = unbroken ? await numberedBatches(tx, site, size) : [];
    all.push({
      site,
      streams: streamsOf({ site, sums: ownSums, spans: spans.filter((span) => span.site === site), facts: own }),
      record: monthlyRecord(site, ownSums, facts, numbered, month),
    });
  }
  return all;
}
