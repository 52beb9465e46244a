import { getTableColumns, getTableName, sql } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import type { TableSaid } from "#server/terms/tableSaid";
import { rowsOf } from "../rowsOf";
import * as schema from "../schema";
import type { Tx } from "../store";
import { insertAtOnce } from "./insertAtOnce";
import { held, type Say, tableSaid } from "./said";

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

/** A command's changes as the database will hold them, row by row: the form that is journalled. */
export function asWritten(changes: Changes, index: number): ChangesWritten {
  return tables(changes, (name, rows) => {
    const columns = Object.entries(getTableColumns(RECORDED[name]));
    return rows.map((row) =>
      Object.fromEntries(
        columns.map(([key, column]) => [column.name, key === "ledgerIndex" ? index : held(row[key])] as const),
      ),
    );
  });
}

/** The same column by column: the form that is hashed and inserted. */
export function asSaid(changes: Changes, index: number, say: Say): Record<string, TableSaid> {
  return tables(changes, (name, rows) =>
    tableSaid(
      rows,
      Object.entries(getTableColumns(RECORDED[name])).map(([key, column]) => ({
        name: column.name,
        of: key === "ledgerIndex" ? () => index : (row) => row[key],
      })),
      say,
    ),
  );
}

type Row = Readonly<Record<string, unknown>>;

function tables<T>(changes: Changes, act: (name: Recorded, rows: readonly Row[]) => T): Record<string, T> {
  const acted: Record<string, T> = {};
  for (const name of Object.keys(RECORDED) as Recorded[]) {
    const rows: readonly Row[] = changes[name] ?? [];
    if (rows.length > 0) acted[getTableName(RECORDED[name])] = act(name, rows);
  }
  return acted;
}

/** Adds what a command changes; `told` learns after each statement how many entries of which table are added. */
export async function insertSaid(
  tx: Tx,
  said: Readonly<Record<string, TableSaid>>,
  told?: (table: string, entries: number) => Promise<void>,
): Promise<void> {
  for (const table of Object.values(RECORDED)) {
    const name = getTableName(table);
    const rows = said[name];
    if (rows !== undefined) await insertAtOnce(tx, table, rows, async (entries) => told?.(name, entries));
  }
}

/** Adds what was written row by row: in the journal. */
export async function insertWritten(tx: Tx, written: ChangesWritten): Promise<void> {
  for (const table of Object.values(RECORDED)) {
    const rows = written[getTableName(table)] ?? [];
    const columns = Object.values(getTableColumns(table)).map(({ name }) => ({ name, of: (row: Row) => row[name] }));
    await insertAtOnce(tx, table, tableSaid(rows, columns, JSON.stringify));
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
