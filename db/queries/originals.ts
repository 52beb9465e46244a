import { type SQL, sql } from "drizzle-orm";
import type { Problem } from "#server/terms/problem";
import type { CellRead } from "#server/terms/row";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";

/** Which logs and rows are meant: of some sites, or of everything that the person may see. Days and size are both in. */
export interface Scope {
  readonly sites: readonly number[];
  /** also logs of the programme as a whole, and their rows of no site */
  readonly whole: boolean;
  readonly from: string;
  readonly to: string;
  readonly size: number;
}

/** A log with the last thing that became of it, and the fates of its rows as last read. */
export interface OriginalRow {
  readonly file: string;
  readonly site: number | null;
  readonly sha256: string | null;
  readonly bytes: number | null;
  readonly arrivedAt: string | null;
  readonly claimedAt: string | null;
  readonly cameBy: string | null;
  readonly state: string | null;
  readonly rows: number;
  readonly counted: number;
  readonly held: number;
  readonly setAside: number;
  readonly rowsOnSlip: number | null;
  readonly ledgerIndex: number | null;
}

const ofSites = (column: SQL, { sites, whole }: Scope) =>
  whole ? sql`true` : sql`${column} in (select jsonb_array_elements_text(${JSON.stringify(sites)}::jsonb)::int)`;
/** A time as texts everywhere have it. */
export const utc = (column: SQL) => sql`to_char(${column} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/**
 * Logs that speak of some days, in the order in which they arrived: they brought or name a batch of these days, fuel, or
 * a held row of one; or they name no day at all and arrived in these months or the one after.
 */
export async function originalsSpeaking(tx: Tx, scope: Scope): Promise<OriginalRow[]> {
  const { from, to, size } = scope;
  const within = (day: SQL) => sql`${day} between ${from}::date and ${to}::date`;
  return rowsOf<OriginalRow>(
    await tx.execute(sql`
      with revised as (
        select b.batch, b.file from batch_revisions b
        where b.ledger_index <= ${size} and ${ofSites(sql`b.site`, scope)} and ${within(sql`b.day`)}),
      speaking as (
        select file from revised where file is not null
        union select l.file from row_batches l where l.ledger_index <= ${size} and l.batch in (select batch from revised)
        union select e.file from fuel_entries e
          where e.ledger_index <= ${size} and e.file is not null and ${ofSites(sql`e.site`, scope)} and ${within(sql`e.day`)}
        union select r.file from rows r
          where r.ledger_index <= ${size} and r.fate = 'held' and ${ofSites(sql`r.site`, scope)}
            and ${within(sql`(r.written ->> 'day')::date`)}),
      undated as (
        select f.id as file from files f
        where f.ledger_index <= ${size}
          and (${ofSites(sql`f.site`, scope)} or f.site is null and exists (
            select 1 from rows r where r.file = f.id and r.ledger_index <= ${size} and ${ofSites(sql`r.site`, scope)}))
          and f.arrived_at >= (${from}::date)::timestamp at time zone 'UTC'
          and f.arrived_at < (date_trunc('month', ${to}::date::timestamp) + interval '2 months') at time zone 'UTC'
          and not exists (select 1 from row_batches l where l.file = f.id and l.ledger_index <= ${size})
          and not exists (select 1 from fuel_entries e where e.file = f.id and e.ledger_index <= ${size})
          and not exists (select 1 from rows r where r.file = f.id and r.ledger_index <= ${size} and r.written ->> 'day' is not null)),
      wanted as (select file from speaking union select file from undated),
      latest as (
        select distinct on (r.file, r.sheet, r.row) r.file, r.site, r.fate from rows r
        where r.file in (select file from wanted) and r.ledger_index <= ${size}
        order by r.file, r.sheet, r.row, r.ledger_index desc),
      fates as (
        select l.file, count(*)::int as rows, count(*) filter (where l.fate = 'counted')::int as counted,
               count(*) filter (where l.fate = 'held')::int as held, count(*) filter (where l.fate = 'set-aside')::int as set_aside
        from latest l where ${ofSites(sql`l.site`, scope)} group by l.file),
      states as (
        select distinct on (s.file) s.file, case when s.state = 'settled' or s.detail -> 'soFar' is not null then 'counted' else s.state end as state from file_states s
        where s.file in (select file from wanted) and s.ledger_index <= ${size}
        order by s.file, s.ledger_index desc, array_position(array['arrived', 'read', 'settled', 'counted', 'withdrawn'], s.state) desc),
      slips as (
        select distinct on (s.file) s.file, (s.detail -> 'slip' -> 'rows' ->> 'rows')::int as rows from file_states s
        where s.file in (select file from wanted) and s.ledger_index <= ${size} and s.state = 'counted'
        order by s.file, s.ledger_index desc)
      select w.file, f.site, f.sha256, f.bytes, ${utc(sql`f.arrived_at`)} as "arrivedAt", ${utc(sql`f.claimed_at`)} as "claimedAt",
             f.came_by as "cameBy", st.state, coalesce(x.rows, 0) as rows, coalesce(x.counted, 0) as counted,
             coalesce(x.held, 0) as held, coalesce(x.set_aside, 0) as "setAside",
             case when f.site is not null or ${scope.whole} then sl.rows end as "rowsOnSlip", f.ledger_index::int as "ledgerIndex"
      from wanted w left join files f on f.id = w.file left join fates x on x.file = w.file
           left join states st on st.file = w.file left join slips sl on sl.file = w.file
      order by f.ledger_index nulls last, w.file`),
  );
}

export interface RowNotCounted {
  readonly site: number | null;
  readonly sheet: string;
  readonly row: number;
  readonly fate: "held" | "set-aside";
  readonly reasons: readonly Problem[];
  readonly cells: readonly CellRead[];
  readonly ledgerIndex: number;
}

/** Rows of a log that are held or set aside, as last read by then. */
export async function rowsNotCounted(tx: Tx, file: string, scope: Scope): Promise<RowNotCounted[]> {
  return rowsOf<RowNotCounted>(
    await tx.execute(sql`
      with latest as (
        select distinct on (r.sheet, r.row) r.* from rows r where r.file = ${file} and r.ledger_index <= ${scope.size}
        order by r.sheet, r.row, r.ledger_index desc)
      select l.site, l.sheet, l.row, l.fate, l.reasons, l.cells, l.ledger_index::int as "ledgerIndex" from latest l
      where l.fate <> 'counted' and ${ofSites(sql`l.site`, scope)}
      order by l.sheet collate "C", l.row`),
  );
}
