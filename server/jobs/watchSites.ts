import { asPerson } from "#db/asPerson";
import { allSites, factsOf } from "#db/queries/sites";
import { sitesTouchedAfter } from "#db/queries/watched";
import type { Store } from "#db/store";
import type { Fact } from "#server/terms/facts";
import { OPERATOR } from "#server/terms/person";
import { prolonged, readSites, type SiteRead, type SiteWatched } from "./watchSitesRead";

export type { SiteWatched } from "./watchSitesRead";

/** What a ledger of some size has of every site. */
export interface SitesWatched {
  readonly size: number;
  readonly sites: readonly SiteWatched[];
  /** the last month that is looked at */
  readonly last: string;
  /** facts of the programme */
  readonly programme: readonly Fact[];
}

/** Sites read in one transaction: others get their turn in between. */
const AT_ONCE = 10;

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
    for (const one of await readSites(asked, some, last, size)) again.set(one.site, one);
  const now = { size, last, programme, sites: ids.flatMap((site) => again.get(site) ?? []) };
  if (before === undefined || size >= before.size) kept.set(store, now);
  return now;
}

function inParts(sites: readonly number[]): number[][] {
  return Array.from({ length: Math.ceil(sites.length / AT_ONCE) }, (_, i) =>
    sites.slice(i * AT_ONCE, (i + 1) * AT_ONCE),
  );
}

/** One site's streams, from those that are at hand where they are of that size. */
export async function siteWatched(store: Store, site: number, month: string, size: number): Promise<SiteWatched> {
  const before = kept.get(store);
  const here =
    before?.size === size && before.last === month ? before.sites.find((one) => one.site === site) : undefined;
  if (here !== undefined) return here;
  const [now] = await readSites({ store, person: OPERATOR.id }, [site], month, size);
  if (now === undefined) throw new Error(`site ${site} was asked for and not read`);
  return now;
}
