import { asc, gt, sql } from "drizzle-orm";
import type { AsKnownOn } from "#server/terms/figure";
import { rowsOf } from "../rowsOf";
import { ledger } from "../schema";
import type { Tx } from "../store";

export type LedgerRow = typeof ledger.$inferSelect;

export interface Head {
  readonly size: number;
  readonly at: string | null;
  readonly peaks: readonly string[];
}

/** Takes the last lock of all: whoever holds it writes the next record. Let go at the end of the transaction. */
export async function lockHead(tx: Tx): Promise<void> {
  await tx.execute(sql`select pg_advisory_xact_lock(1, 0)`);
}

/** Locks a site (0: the programme) against other commands that write to it. The first lock that a command takes. */
export async function lockSite(tx: Tx, site: number): Promise<void> {
  await tx.execute(sql`select pg_advisory_xact_lock(2, ${site}::int)`);
}

export async function ledgerHead(tx: Tx): Promise<Head> {
  const [head] = rowsOf<{ size: number; at: string; peaks: string[] }>(
    await tx.execute(
      sql`select size::int as size, to_char(at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as at, peaks from evendry_head()`,
    ),
  );
  return head ?? { size: 0, at: null, peaks: [] };
}

/**
 * What was known at a time, or with so many records ("record-93"); null asks for all that is known. Throws nothing: before
 * the first record the size is 0. A site lead is told the time of the last record that a lead may see.
 */
export async function knownOn(tx: Tx, time: string | null): Promise<AsKnownOn> {
  if (time === null) {
    const head = await ledgerHead(tx);
    return { ledgerSize: head.size, time: head.at };
  }
  const record = /^record-(\d+)$/.exec(time)?.[1];
  if (record !== undefined) return knownWith(tx, Number(record));
  const [known] = rowsOf<{ size: number; at: string }>(
    await tx.execute(
      sql`select size::int as size, to_char(at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as at from evendry_size_at(${time}::timestamptz)`,
    ),
  );
  return known === undefined ? { ledgerSize: 0, time: null } : { ledgerSize: known.size, time: known.at };
}

async function knownWith(tx: Tx, records: number): Promise<AsKnownOn> {
  const head = await ledgerHead(tx);
  if (records >= head.size) return { ledgerSize: head.size, time: head.at };
  const [last] = rowsOf<{ at: string }>(
    await tx.execute(
      sql`select to_char(at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as at from ledger where index <= ${records} order by index desc limit 1`,
    ),
  );
  return { ledgerSize: records, time: last?.at ?? null };
}

export async function appendLedger(tx: Tx, row: LedgerRow): Promise<void> {
  await tx.insert(ledger).values(row);
}

/** The records after an index, oldest first; of a site lead only the own site's. */
export async function recordsAfter(tx: Tx, index: number, most: number): Promise<LedgerRow[]> {
  return tx.select().from(ledger).where(gt(ledger.index, index)).orderBy(asc(ledger.index)).limit(most);
}
