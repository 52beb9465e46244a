import { and, asc, eq, lte } from "drizzle-orm";
import { publications } from "../schema";
import type { Tx } from "../store";

export type Publication = typeof publications.$inferSelect;

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
