import { and, asc, eq, inArray, lte, sql } from "drizzle-orm";
import type { Fact, FactKind, FactValue } from "#server/terms/facts";
import { rowsOf } from "../rowsOf";
import { facts, sites } from "../schema";
import type { Tx } from "../store";

export interface Site {
  readonly id: number;
  readonly code: string;
}

/** The sites that the person may see, by code. */
export async function allSites(tx: Tx): Promise<Site[]> {
  return tx.select({ id: sites.id, code: sites.code }).from(sites).orderBy(asc(sites.code));
}

/** A site by its code; undefined also when the person may not see it. */
export async function siteByCode(tx: Tx, code: string): Promise<Site | undefined> {
  const [found] = await tx.select({ id: sites.id, code: sites.code }).from(sites).where(eq(sites.code, code));
  return found;
}

/** The number that the next site gets; asked under the ledger's lock. */
export async function nextSite(tx: Tx): Promise<number> {
  const [found] = rowsOf<{ next: number }>(await tx.execute(sql`select coalesce(max(id), 0) + 1 as next from sites`));
  return found?.next ?? 1;
}

/** Everything declared about some sites, and about the programme (site 0), as known at a size of the ledger. */
export async function factsOf(tx: Tx, of: readonly number[], size: number): Promise<Fact[]> {
  const found = await tx
    .select()
    .from(facts)
    .where(and(inArray(facts.site, [0, ...of]), lte(facts.ledgerIndex, size)))
    .orderBy(asc(facts.ledgerIndex), asc(facts.site), asc(facts.kind), asc(facts.key), asc(facts.from));
  return found.map((fact) => ({
    ...fact,
    kind: fact.kind as FactKind,
    value: fact.value as FactValue<FactKind> | null,
  }));
}
