import { getTableColumns, getTableName, sql } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import { rowsOf } from "../rowsOf";
import * as schema from "../schema";
import type { Tx } from "../store";
import { held, insertAtOnce } from "./insertAtOnce";

/** Everything that a command may add to, in the order in which it is added and journalled. */
export const RECORDED = {
  sites: schema.sites,
  facts: schema.facts,
  people: schema.people,
  files: schema.files,
  fileStates: schema.fileStates,
  rows: schema.rows,
  rowBatches: schema.rowBatches,
  batchRevisions: schema.batchRevisions,
  daySums: schema.daySums,
  monthSums: schema.monthSums,
  fuelEntries: schema.fuelEntries,
  fuelSpans: schema.fuelSpans,
  publications: schema.publications,
  watchedMonths: schema.watchedMonths,
  watchedStreams: schema.watchedStreams,
  signals: schema.signals,
  signalAnswers: schema.signalAnswers,
} as const;

export type Recorded = keyof typeof RECORDED;
type Added<T extends PgTable> = Omit<T["$inferInsert"], "ledgerIndex">;

/** What a command adds, table by table, before the ledger has given it an index. */
export type Changes = { readonly [K in Recorded]?: readonly Added<(typeof RECORDED)[K]>[] };

/** The same as the database holds them: column names as keys, plain JSON values. */
export type ChangesWritten = Record<string, Record<string, unknown>[]>;

/** A command's changes as the database will hold them: the form that is hashed, journalled and inserted. */
export function asWritten(changes: Changes, index: number): ChangesWritten {
  const written: ChangesWritten = {};
  for (const name of Object.keys(RECORDED) as Recorded[]) {
    const added = changes[name] ?? [];
    const columns = Object.entries(getTableColumns(RECORDED[name]));
    if (added.length === 0) continue;
    written[getTableName(RECORDED[name])] = added.map((row: Readonly<Record<string, unknown>>) => {
      const values: Record<string, unknown> = {};
      for (const [key, column] of columns) values[column.name] = key === "ledgerIndex" ? index : held(row[key]);
      return values;
    });
  }
  return written;
}

/** Adds what a command changes; `told` learns after each statement how many entries of which table are added. */
export async function insertWritten(
  tx: Tx,
  written: ChangesWritten,
  told?: (table: string, entries: number) => Promise<void>,
): Promise<void> {
  for (const table of Object.values(RECORDED)) {
    const name = getTableName(table);
    await insertAtOnce(tx, table, written[name] ?? [], async (entries) => told?.(name, entries));
  }
}

/** What the record of an index added, as the database holds it; tables without a row are left out. */
export async function changesOf(tx: Tx, index: number): Promise<ChangesWritten> {
  const written: ChangesWritten = {};
  for (const table of Object.values(RECORDED)) {
    const found = rowsOf<{ row: string }>(
      await tx.execute(sql`select to_jsonb(t)::text as row from ${table} t where t.ledger_index = ${index}`),
    );
    if (found.length > 0)
      written[getTableName(table)] = found.map(({ row }) => JSON.parse(row) as Record<string, unknown>);
  }
  return written;
}
