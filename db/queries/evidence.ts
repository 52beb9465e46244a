import { sql } from "drizzle-orm";
import type { FuelSpan } from "#server/terms/fuel";
import type { CellRead } from "#server/terms/row";
import { listed } from "../listed";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";
import { type Scope, utc } from "./originals";

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
        from row_batches l where l.batch in ${listed(batches, "uuid")} and l.part <> 'part' and l.ledger_index <= ${size}
        order by l.file, l.sheet, l.row, l.batch, l.ledger_index desc),
      latest as (
        select distinct on (r.file, r.sheet, r.row) r.file, r.sheet, r.row, r.fate, r.cells from rows r
        where r.file in (select file from said) and r.ledger_index <= ${size}
        order by r.file, r.sheet, r.row, r.ledger_index desc),
      placed as (
        select l.*, (row_number() over (partition by l.file order by l.sheet, l.row))::int as at from latest l)
      select s.batch, s.file, f.sha256, s.sheet, s.row, p.at, s.part, s.ledger_index::int as "ledgerIndex", p.fate, p.cells,
             not exists (select 1 from file_states w where w.file = s.file and w.state = 'withdrawn' and w.ledger_index <= ${size}
               and (w.detail -> 'soFar' is null or exists (
                 select 1 from batch_revisions t where t.batch = s.batch and t.ledger_index >= w.ledger_index and t.ledger_index <= ${size}
                   and t.reason = 'took-back ' || s.file))) as stands
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
