import { and, asc, desc, eq, sql } from "drizzle-orm";
import type { BatchWritten } from "#server/terms/batch";
import type { Problem } from "#server/terms/problem";
import type { CellRead } from "#server/terms/row";
import { listed } from "../listed";
import { rowsOf } from "../rowsOf";
import { rowBatches, rows } from "../schema";
import type { Tx } from "../store";

export interface KeptRow {
  readonly file: string;
  readonly sheet: string;
  readonly row: number;
  readonly site: number | null;
  readonly fate: "counted" | "held" | "set-aside";
  readonly reasons: readonly Problem[];
  readonly cells: readonly CellRead[];
  readonly sealed: readonly string[];
}

/** The rows of a file as it was last read. */
export async function rowsOfFile(tx: Tx, file: string): Promise<KeptRow[]> {
  const latest = await tx
    .selectDistinctOn([rows.sheet, rows.row])
    .from(rows)
    .where(eq(rows.file, file))
    .orderBy(asc(rows.sheet), asc(rows.row), desc(rows.ledgerIndex));
  return latest.map(
    ({ ledgerIndex: _when, grain: _grain, driedOnly: _only, written: _written, fate, reasons, cells, ...row }) => ({
      ...row,
      fate: fate as KeptRow["fate"],
      reasons: reasons as readonly Problem[],
      cells: cells as readonly CellRead[],
    }),
  );
}

/** The rows that some batches were read from. */
export async function rowsOfBatches(
  tx: Tx,
  batches: readonly string[],
): Promise<{ batch: string; file: string; sheet: string; row: number; part: string }[]> {
  return tx
    .selectDistinct({
      batch: rowBatches.batch,
      file: rowBatches.file,
      sheet: rowBatches.sheet,
      row: rowBatches.row,
      part: rowBatches.part,
    })
    .from(rowBatches)
    .where(and(sql`${rowBatches.batch} in ${listed(batches, "uuid")}`))
    .orderBy(asc(rowBatches.batch), asc(rowBatches.file), asc(rowBatches.sheet), asc(rowBatches.row));
}

/** A row that brought only a dried weight and found no load for it yet. */
export interface WaitingRow {
  readonly file: string;
  readonly sheet: string;
  readonly row: number;
  readonly batch: BatchWritten;
  readonly cells: readonly CellRead[];
  readonly sealed: readonly string[];
}

/** The dried weights of a site that still wait for their load. */
export async function waitingDried(tx: Tx, site: number): Promise<WaitingRow[]> {
  const found = rowsOf<{
    file: string;
    sheet: string;
    row: number;
    written: BatchWritten;
    cells: CellRead[];
    sealed: string[];
  }>(
    await tx.execute(sql`select r.file, r.sheet, r.row, r.written, r.cells, r.sealed from rows r
      where r.site = ${site} and r.fate = 'held' and r.dried_only and r.written is not null
        and not exists (select 1 from rows n where n.file = r.file and n.sheet = r.sheet and n.row = r.row and n.ledger_index > r.ledger_index)
        and not exists (select 1 from file_states s where s.file = r.file and s.state = 'withdrawn')
      order by r.file, r.sheet, r.row`),
  );
  return found.map(({ written, ...row }) => ({ ...row, batch: written }));
}

/** Those of some batches that rows of a file spoke of. */
export async function batchesSpokenOf(tx: Tx, file: string, batches: readonly string[]): Promise<ReadonlySet<string>> {
  const found = rowsOf<{ batch: string }>(
    await tx.execute(
      sql`select distinct l.batch from row_batches l where l.batch = any(array${listed(batches, "uuid")}) and l.file = ${file}`,
    ),
  );
  return new Set(found.map(({ batch }) => batch));
}

/** Which batch each row of a file was read into, as last said. */
export async function linksOfFile(tx: Tx, file: string): Promise<Map<string, string>> {
  const links = await tx
    .select()
    .from(rowBatches)
    .where(eq(rowBatches.file, file))
    .orderBy(asc(rowBatches.ledgerIndex));
  return new Map(links.map((link) => [`${link.sheet}!${link.row}`, link.batch]));
}
