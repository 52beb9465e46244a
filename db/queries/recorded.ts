import { getTableColumns, getTableName, sql } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import type { TableSaid } from "#server/terms/tableSaid";
import { rowsOf } from "../rowsOf";
import * as schema from "../schema";
import type { Tx } from "../store";
import { REVISION, type Revised } from "./batches";
import { insertAtOnce } from "./insertAtOnce";
import { held, type Say, tablesSaid } from "./said";

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
const RECORDED_NAMES = Object.keys(RECORDED) as Recorded[];
type Added<T extends PgTable> = Omit<T["$inferInsert"], "ledgerIndex">;

/** What a command adds, table by table, before the ledger has given it an index. */
export type Changes = { readonly [K in Recorded]?: readonly AddedTo[K][] };
type AddedTo = { readonly [K in Exclude<Recorded, "batchRevisions">]: Added<(typeof RECORDED)[K]> } & {
  readonly batchRevisions: Revised;
};

/** The same as the database holds them: column names as keys, plain JSON values. */
export type ChangesWritten = Record<string, Record<string, unknown>[]>;

type Row = Readonly<Record<string, unknown>>;
/** Written as a method, so that what asks one kind of row may stand for what asks any. */
type Of = { of(row: Row): unknown }["of"];

interface Adding {
  readonly table: PgTable;
  readonly name: string;
  readonly rows: readonly Row[];
  readonly columns: readonly { readonly name: string; readonly of: Of }[];
}

/** What a command adds, in the order in which it is journalled, and what each column holds of it. */
function adding(changes: Changes, index: number): Adding[] {
  return RECORDED_NAMES.flatMap((key) => {
    const rows: readonly Row[] = changes[key] ?? [];
    const own: Readonly<Record<string, Of>> = key === "batchRevisions" ? REVISION : {};
    const columns = Object.entries(getTableColumns(RECORDED[key])).map(([key, { name }]) => ({
      name,
      of: key === "ledgerIndex" ? () => index : (own[key] ?? ((row: Row) => row[key])),
    }));
    return rows.length === 0 ? [] : [{ table: RECORDED[key], name: getTableName(RECORDED[key]), rows, columns }];
  });
}

/** A command's changes as the database will hold them, row by row: the form that is journalled. */
export function asWritten(changes: Changes, index: number): ChangesWritten {
  const written = ({ rows, columns }: Adding) =>
    rows.map((row) => Object.fromEntries(columns.map(({ name, of }) => [name, held(of(row))] as const)));
  return Object.fromEntries(adding(changes, index).map((one) => [one.name, written(one)]));
}

/**
 * Adds what a command changes, in pieces, table by table in the order of their names. While the database is at a piece,
 * `beside` is told of it and the next one is written.
 */
export async function insertChanges(
  tx: Tx,
  changes: Changes,
  index: number,
  say: Say,
  beside: (table: string, said: TableSaid) => Promise<void>,
): Promise<void> {
  const byName = adding(changes, index).sort((a, b) => (a.name < b.name ? -1 : 1));
  let going: Promise<void> = Promise.resolve();
  try {
    for (const { table, name, rows, columns } of byName) {
      for (const said of tablesSaid(rows, columns, say)) {
        await going;
        going = insertAtOnce(tx, table, said);
        going.catch(() => {}); // it is waited for above or below
        await beside(name, said);
      }
    }
  } finally {
    await going;
  }
}

/** Adds what was written row by row: in the journal. */
export async function insertWritten(tx: Tx, written: ChangesWritten): Promise<void> {
  for (const table of Object.values(RECORDED)) {
    const rows = written[getTableName(table)] ?? [];
    const columns = Object.values(getTableColumns(table)).map(({ name }) => ({ name, of: (row: Row) => row[name] }));
    for (const said of tablesSaid(rows, columns, JSON.stringify)) await insertAtOnce(tx, table, said);
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
