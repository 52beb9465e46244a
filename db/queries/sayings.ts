import { type SQL, sql } from "drizzle-orm";
import type { BatchWritten } from "#server/terms/batch";
import type { Problem } from "#server/terms/problem";
import { listed } from "../listed";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";

/** That a row spoke of a batch, once: a row that is read again speaks again. */
export interface SayingRow {
  readonly file: string;
  readonly sheet: string;
  readonly row: number;
  readonly batch: string;
  readonly part: "whole" | "dried" | "part";
  /** index of the record in which it did */
  readonly at: number;
  /** what it said; null where that is just what the batch became in the same record, or was already */
  readonly written: BatchWritten | null;
  /** when its log arrived; null where the person may not see that log */
  readonly arrivedAt: string | null;
  /** the log was taken back since */
  readonly withdrawn: boolean;
}

const SAYING = sql`l.file, l.sheet, l.row, l.batch, l.part, l.ledger_index::int as at, r.written,
  to_char(f.arrived_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as "arrivedAt",
  l.file in (select s.file from file_states s where s.state = 'withdrawn') as withdrawn`;
const FROM = sql`row_batches l
  join rows r on r.file = l.file and r.ledger_index = l.ledger_index and r.sheet = l.sheet and r.row = l.row
  left join files f on f.id = l.file`;

/** Everything that rows of other logs than one ever said of some batches. */
export async function sayingsOf(tx: Tx, batches: readonly string[], besides: string): Promise<SayingRow[]> {
  return ask(
    tx,
    sql`select ${SAYING} from ${FROM}
        where l.batch = any(array${listed(batches, "uuid")}) and l.file <> ${besides} order by l.ledger_index`,
  );
}

/** What the rows of a log last said of batches of a site. */
export async function lastSayings(tx: Tx, site: number, file: string): Promise<SayingRow[]> {
  return ask(
    tx,
    sql`select ${SAYING} from ${FROM} where l.file = ${file} and l.site = ${site} and (l.sheet, l.row, l.ledger_index) in (
          select n.sheet, n.row, max(n.ledger_index) from row_batches n where n.file = ${file} group by n.sheet, n.row)
        order by l.ledger_index`,
  );
}

async function ask(tx: Tx, query: SQL): Promise<SayingRow[]> {
  return rowsOf<SayingRow>(await tx.execute(query));
}

/** A row that told only a part of a batch, as it was last read. */
export interface LeaningRow {
  readonly file: string;
  readonly sheet: string;
  readonly row: number;
  readonly site: number | null;
  readonly grain: string | null;
  readonly driedOnly: boolean;
  readonly cells: unknown;
  readonly sealed: string[];
  readonly written: BatchWritten;
  /** what was said of it, when it was held before or else as it counts */
  readonly reasons: readonly Problem[];
}

/** Rows of other logs that brought the dried weight of some batches and nothing else, or told a part or the sum of them. */
export async function rowsLeaningOn(tx: Tx, batches: readonly string[], besides: string): Promise<LeaningRow[]> {
  return rowsOf<LeaningRow>(
    await tx.execute(sql`
      select distinct on (r.file, r.sheet, r.row) r.file, r.sheet, r.row, r.site, r.grain, r.dried_only as "driedOnly",
             r.cells, r.sealed, r.written, coalesce((
               select h.reasons from rows h where h.file = r.file and h.sheet = r.sheet and h.row = r.row and h.fate = 'held'
               order by h.ledger_index desc limit 1), r.reasons) as reasons
      from row_batches l join rows r on r.file = l.file and r.ledger_index = l.ledger_index and r.sheet = l.sheet and r.row = l.row
      where l.batch in ${listed(batches, "uuid")} and l.part in ('dried', 'part') and l.file <> ${besides} and r.written is not null
        and not exists (select 1 from rows n where n.file = l.file and n.sheet = l.sheet and n.row = l.row and n.ledger_index > l.ledger_index)
        and not exists (select 1 from file_states s where s.file = l.file and s.state = 'withdrawn')
      order by r.file, r.sheet, r.row, r.ledger_index desc`),
  );
}
