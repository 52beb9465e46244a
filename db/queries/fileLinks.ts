import { sql } from "drizzle-orm";
import type { BatchWritten } from "#server/terms/batch";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";

/** That a row of a file spoke of a batch, and in which record. */
export interface LinkSaid {
  readonly sheet: string;
  readonly row: number;
  readonly site: number;
  readonly batch: string;
  readonly part: "whole" | "dried" | "part";
  readonly at: number;
}

/** The batches of which some rows of a file spoke last: those from one row number on and before another. */
export async function linksSaid(tx: Tx, file: string, from: number, to: number): Promise<LinkSaid[]> {
  return rowsOf<LinkSaid>(
    await tx.execute(sql`
      select sheet, row, site, batch, part, at from (
        select l.sheet, l.row, l.site, l.batch, l.part, l.ledger_index::int as at,
               max(l.ledger_index) over (partition by l.sheet, l.row) as last
        from row_batches l where l.file = ${file} and l.row >= ${from} and l.row < ${to}) said
      where at = last`),
  );
}

/** What some rows of a file said in a record each, where that was not just what became of their batch. */
export async function writtenThen(
  tx: Tx,
  file: string,
  rows: readonly Pick<LinkSaid, "sheet" | "row" | "at">[],
): Promise<{ readonly sheet: string; readonly row: number; readonly written: BatchWritten }[]> {
  const places = JSON.stringify(rows.map(({ sheet, row, at }) => ({ sheet, row, at })));
  return rowsOf(
    await tx.execute(sql`
      select r.sheet, r.row, r.written from jsonb_to_recordset(${places}::jsonb) as w(sheet text, row int, at bigint)
      join rows r on r.file = ${file} and r.ledger_index = w.at and r.sheet = w.sheet and r.row = w.row
      where r.written is not null`),
  );
}

/** The rows of a file that waited for an answer at any time. */
export async function rowsEverHeld(tx: Tx, file: string): Promise<{ readonly sheet: string; readonly row: number }[]> {
  return rowsOf(
    await tx.execute(sql`select distinct r.sheet, r.row from rows r where r.file = ${file} and r.fate = 'held'`),
  );
}
