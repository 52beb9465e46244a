import { asPerson } from "#db/asPerson";
import type { AskedTables } from "./evidenceParts";
import { type PublishedSince, publishedSince, standingPublications } from "./publishedSince";
import type { Corridor } from "./record";

/** More months than these are not worked out anew for one page. */
const MOST = 120;

export interface PublishedCount extends Omit<PublishedSince, "differs"> {
  readonly differs: number;
}

/** What was published of the months asked for, newest first, each with how many figures are known otherwise; site by site, so that nobody waits long. */
export async function publishedOf(
  corridor: Corridor,
  { sites, from, to, known }: AskedTables,
): Promise<{ readonly months: readonly PublishedCount[]; readonly more: boolean }> {
  const { rows, more } = await asPerson(corridor, (tx) =>
    standingPublications(tx, sites, { from, to }, known.ledgerSize, MOST),
  );
  const months: PublishedCount[] = [];
  for (const site of sites) {
    const its = rows.filter((row) => row.site === site.id);
    if (its.length === 0) continue;
    const found = await asPerson(corridor, (tx) => publishedSince(tx, site, its, known));
    months.push(...found.map((one) => ({ ...one, differs: one.differs.length })));
  }
  return { months: months.sort((a, b) => b.ledgerIndex - a.ledgerIndex), more };
}
