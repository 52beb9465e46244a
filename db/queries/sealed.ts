import { asc, eq, getTableColumns, sql } from "drizzle-orm";
import { listed } from "../listed";
import { sealed } from "../schema";
import type { Tx } from "../store";
import { insertAtOnce } from "./insertAtOnce";
import { tablesSaid } from "./said";

export type SealedRow = typeof sealed.$inferSelect;

export async function insertSealed(tx: Tx, rows: readonly SealedRow[]): Promise<void> {
  const columns = Object.entries(getTableColumns(sealed)).map(([key, { name }]) => ({
    name,
    of: (row: Readonly<Record<string, unknown>>) => row[key],
  }));
  for (const said of tablesSaid(rows, columns, JSON.stringify)) await insertAtOnce(tx, sealed, said);
}

export async function sealedOf(tx: Tx, index: number): Promise<SealedRow[]> {
  return tx.select().from(sealed).where(eq(sealed.ledgerIndex, index)).orderBy(asc(sealed.commitment));
}

/** What is behind some commitments, as far as it was not erased and the person may see it. */
export async function unseal(tx: Tx, commitments: readonly string[]): Promise<Map<string, string>> {
  if (commitments.length === 0) return new Map();
  const found = await tx
    .select({ commitment: sealed.commitment, value: sealed.value })
    .from(sealed)
    .where(sql`${sealed.commitment} in ${listed(commitments, "text")}`);
  return new Map(found.map(({ commitment, value }) => [commitment, value]));
}

/** Erases sealed values for good; of each record they came with, what is left. */
export async function eraseSealed(tx: Tx, commitments: readonly string[]): Promise<Map<number, SealedRow[]>> {
  const gone = await tx
    .delete(sealed)
    .where(sql`${sealed.commitment} in ${listed(commitments, "text")}`)
    .returning({ index: sealed.ledgerIndex });
  const left = new Map<number, SealedRow[]>();
  for (const { index } of gone) if (!left.has(index)) left.set(index, await sealedOf(tx, index));
  return left;
}
