import { sql } from "drizzle-orm";
import { listed } from "../listed";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";
import { type BatchRow, revisionsOf } from "./batches";

/**
 * Logs, others than this one, in which a person joined a dried weight on a line of its own to some loads that this one
 * brought, so that these count there as one batch.
 */
export async function logsThatJoined(tx: Tx, file: string, batches: readonly string[]): Promise<string[]> {
  const found = rowsOf<{ file: string }>(
    await tx.execute(sql`
      select distinct o.file from batch_revisions o
      join row_batches l on l.file = o.file and l.ledger_index = o.ledger_index and l.part = 'whole'
      join rows r on r.file = l.file and r.ledger_index = l.ledger_index and r.sheet = l.sheet and r.row = l.row and r.dried_only
      where o.batch = any(array${listed(batches, "uuid")}) and o.withdrawn and o.reason = 'weighed-together' and o.file <> ${file}
        and not exists (select 1 from batch_revisions n where n.batch = o.batch and n.ledger_index > o.ledger_index)
        and exists (select 1 from batch_revisions m join file_states s on s.file = m.file and s.ledger_index = m.ledger_index
          where m.batch = o.batch and m.file = ${file} and s.state <> 'withdrawn')
        and not exists (
          select 1 from file_states s where s.file = o.file and s.state = 'withdrawn' and s.detail -> 'soFar' is null)
      order by o.file`),
  );
  return found.map(({ file }) => file);
}

/** The loads whose place batches of some days took in one record of a file, as they stand: withdrawn. */
export async function loadsTakenOut(tx: Tx, site: number, file: string, index: number): Promise<BatchRow[]> {
  const found = rowsOf<{ batch: string }>(
    await tx.execute(sql`select batch from batch_revisions
      where site = ${site} and file = ${file} and ledger_index = ${index} and withdrawn and reason = 'weighed-together'`),
  );
  const all = await revisionsOf(
    tx,
    found.map(({ batch }) => batch),
    Number.MAX_SAFE_INTEGER,
  );
  const last = new Map(all.map((row) => [row.batch, row]));
  return [...last.values()].filter(({ withdrawn, ledgerIndex }) => withdrawn && ledgerIndex === index);
}
