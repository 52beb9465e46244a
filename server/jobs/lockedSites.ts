import { lockSite } from "#db/queries/ledger";
import { allSites, type Site } from "#db/queries/sites";
import type { Tx } from "#db/store";

/** The sites that a log may speak of, locked in the order of their numbers; the programme's own lock first. */
export async function lockedSites(tx: Tx, site: number | null): Promise<Site[]> {
  const sites = (await allSites(tx)).filter(({ id }) => site === null || id === site).sort((a, b) => a.id - b.id);
  if (site === null) await lockSite(tx, 0);
  for (const { id } of sites) await lockSite(tx, id);
  return sites;
}
