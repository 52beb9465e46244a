import { type SQL, sql } from "drizzle-orm";
import type { FuelSpan } from "#server/terms/fuel";
import type { Problem } from "#server/terms/problem";
import type { CellRead } from "#server/terms/row";
import { listed } from "../listed";
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
const utc = (column: SQL) => sql`to_char(${column} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

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
        select distinct on (s.file) s.file, s.state from file_states s
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

/** A row that a batch was read from, with its cells; `at` is its place in its log, counted from 1 as the log's rows are listed. */
export interface RowOfBatch {
  readonly batch: string;
  readonly file: string;
  readonly sha256: string | null;
  readonly stands: boolean;
  readonly sheet: string;
  readonly row: number;
  readonly at: number;
  readonly part: "whole" | "dried";
  readonly ledgerIndex: number;
  readonly fate: "counted" | "held" | "set-aside";
  readonly cells: readonly CellRead[];
}

/** Every row that some batches were read from, as last said of the row by then, in the order in which it was said. */
export async function rowsBehind(tx: Tx, batches: readonly string[], size: number): Promise<RowOfBatch[]> {
  if (batches.length === 0) return [];
  return rowsOf<RowOfBatch>(
    await tx.execute(sql`
      with said as (
        select distinct on (l.file, l.sheet, l.row, l.batch) l.file, l.sheet, l.row, l.batch, l.part, l.ledger_index
        from row_batches l where l.batch in ${listed(batches, "uuid")} and l.ledger_index <= ${size}
        order by l.file, l.sheet, l.row, l.batch, l.ledger_index desc),
      latest as (
        select distinct on (r.file, r.sheet, r.row) r.file, r.sheet, r.row, r.fate, r.cells from rows r
        where r.file in (select file from said) and r.ledger_index <= ${size}
        order by r.file, r.sheet, r.row, r.ledger_index desc),
      placed as (
        select l.*, (row_number() over (partition by l.file order by l.sheet, l.row))::int as at from latest l)
      select s.batch, s.file, f.sha256, s.sheet, s.row, p.at, s.part, s.ledger_index::int as "ledgerIndex", p.fate, p.cells,
             not exists (select 1 from file_states w where w.file = s.file and w.state = 'withdrawn' and w.ledger_index <= ${size}) as stands
      from said s join placed p on p.file = s.file and p.sheet = s.sheet and p.row = s.row left join files f on f.id = s.file
      where not exists (select 1 from row_batches n where n.file = s.file and n.sheet = s.sheet and n.row = s.row
                        and n.ledger_index > s.ledger_index and n.ledger_index <= ${size})
      order by s.batch, s.ledger_index, s.file, s.sheet collate "C", s.row`),
  );
}

/** How many batches there are in each month, counted one by one as known then, and by the sums that figures rest on. */
export interface BatchCount {
  readonly site: number;
  readonly month: string;
  readonly methods: number;
  readonly listed: number;
  readonly here: number;
  readonly usable: number;
}

export async function batchCounts(tx: Tx, { sites, from, to, size }: Scope): Promise<BatchCount[]> {
  const these = JSON.stringify(sites);
  return rowsOf<BatchCount>(
    await tx.execute(sql`
      with these as (select jsonb_array_elements_text(${these}::jsonb)::int as site),
      touched as (
        select distinct b.batch from batch_revisions b
        where b.site in (select site from these) and b.day between ${from}::date and ${to}::date and b.ledger_index <= ${size}),
      known as (
        select distinct on (b.batch) b.site, b.day, b.withdrawn from batch_revisions b
        where b.batch in (select batch from touched) and b.ledger_index <= ${size}
        order by b.batch, b.ledger_index desc),
      listed as (
        select site, to_char(day, 'YYYY-MM') as month, count(*)::int as listed from known
        where not withdrawn and day between ${from}::date and ${to}::date group by 1, 2),
      sums as (
        select distinct on (m.month, m.site, m.method, m.measure) m.month, m.site, m.method, m.measure, m.batches from month_sums m
        where m.site in (select site from these) and m.month between to_char(${from}::date, 'YYYY-MM') and to_char(${to}::date, 'YYYY-MM')
          and m.measure in ('here', 'dry-yield') and m.ledger_index <= ${size}
        order by m.month, m.site, m.method, m.measure, m.ledger_index desc),
      summed as (
        select site, month, count(*) filter (where measure = 'here')::int as methods,
               (coalesce(sum(batches) filter (where measure = 'here'), 0))::int as here,
               (coalesce(sum(batches) filter (where measure = 'dry-yield'), 0))::int as usable
        from sums where batches > 0 group by 1, 2)
      select site, month, coalesce(methods, 0) as methods, coalesce(listed, 0) as listed, coalesce(here, 0) as here,
             coalesce(usable, 0) as usable
      from listed full join summed using (site, month) order by site, month`),
  );
}

/** Spans of fuel that touch some days, with the record that last changed each. */
export async function spansRecorded(
  tx: Tx,
  site: number,
  from: string,
  to: string,
  size: number,
): Promise<(FuelSpan & { readonly ledgerIndex: number })[]> {
  const found = rowsOf<FuelSpan & { gone: boolean; ledgerIndex: number }>(
    await tx.execute(sql`
      select distinct on (s.from_day, s.to_day, s.fuel, s.how, s.unit)
             s.site, s.from_day::text as "from", s.to_day::text as "to", s.fuel, s.how, s.unit, s.low, s.best, s.high, s.shared, s.gone,
             s.ledger_index::int as "ledgerIndex"
      from fuel_spans s
      where s.site = ${site} and s.ledger_index <= ${size} and s.from_day <= ${to}::date
        and (s.to_day >= ${from}::date or s.how = 'pending')
      order by s.from_day, s.to_day, s.fuel, s.how, s.unit, s.ledger_index desc`),
  );
  return found.filter(({ gone }) => !gone).map(({ gone: _gone, ...span }) => span);
}

export interface PublicationRow {
  readonly month: string;
  readonly edition: string;
  readonly knownSize: number;
  readonly figures: string;
  readonly publishedAt: string | null;
  readonly ledgerIndex: number;
}

/** What was published of a site's months, by month and then oldest first. */
export async function publicationsWithin(tx: Tx, site: number, { from, to, size }: Scope): Promise<PublicationRow[]> {
  return rowsOf<PublicationRow>(
    await tx.execute(sql`
      select p.month, p.edition, p.known_size::int as "knownSize", p.figures, ${utc(sql`l.at`)} as "publishedAt",
             p.ledger_index::int as "ledgerIndex"
      from publications p left join ledger l on l.index = p.ledger_index
      where p.site = ${site} and p.ledger_index <= ${size}
        and p.month between to_char(${from}::date, 'YYYY-MM') and to_char(${to}::date, 'YYYY-MM')
      order by p.month, p.ledger_index`),
  );
}
