import { and, asc, eq, lte, sql } from "drizzle-orm";
import { rowsOf } from "../rowsOf";
import { publications } from "../schema";
import type { Tx } from "../store";
import { type Scope, utc } from "./originals";

export type Publication = typeof publications.$inferSelect;

export interface PublishedRow extends Pick<Publication, "site" | "month" | "edition" | "knownSize" | "figures"> {
  readonly publishedAt: string | null;
  readonly ledgerIndex: number;
}

/** What was published last of each month of some sites, as known at a size of the ledger: the newest first, `most` at the most. */
export async function lastPublications(
  tx: Tx,
  { sites, from, to, size }: Scope,
  most: number,
): Promise<PublishedRow[]> {
  if (sites.length === 0) return [];
  return rowsOf<PublishedRow>(
    await tx.execute(sql`
      with last as (
        select site, month, max(ledger_index) as ledger_index from publications
        where site in (select jsonb_array_elements_text(${JSON.stringify(sites)}::jsonb)::int) and ledger_index <= ${size}
          and month between to_char(${from}::date, 'YYYY-MM') and to_char(${to}::date, 'YYYY-MM')
        group by site, month order by 3 desc limit ${most})
      select p.site, p.month, p.edition, p.known_size::int as "knownSize", p.figures, ${utc(sql`l.at`)} as "publishedAt",
             p.ledger_index::int as "ledgerIndex"
      from last join publications p using (site, month, ledger_index) left join ledger l on l.index = p.ledger_index
      order by p.ledger_index desc, p.site`),
  );
}

/** What was published of a site's month, oldest first, as known at a size of the ledger. */
export async function publicationsOf(tx: Tx, site: number, month: string, size: number): Promise<Publication[]> {
  return tx
    .select()
    .from(publications)
    .where(and(eq(publications.site, site), eq(publications.month, month), lte(publications.ledgerIndex, size)))
    .orderBy(asc(publications.ledgerIndex));
}

export async function everyPublication(tx: Tx): Promise<Publication[]> {
  return tx.select().from(publications).orderBy(asc(publications.ledgerIndex), asc(publications.id));
}
