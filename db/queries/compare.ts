import { sql } from "drizzle-orm";
import type { Method } from "#server/terms/batch";
import type { Fact, FactKind, FactValue } from "#server/terms/facts";
import type { Fuel, FuelSpan, FuelUnit, HowKnown } from "#server/terms/fuel";
import type { DaySum, Summed } from "#server/terms/sums";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";

/** Some days of a site, both ends in. */
export interface SiteDays {
  readonly site: number;
  readonly from: string;
  readonly to: string;
}

/** Kinds that a month hangs on through other days than its own. */
const OF_ANY_DAY: readonly FactKind[] = ["name", "open", "fuel-factor"];

/**
 * Facts in force at some time of a month, of every site that the person may see and of the programme, as known at a size
 * of the ledger; only of the kinds asked for. Names, openings and factors of fuel come whatever their days.
 */
export async function factsOfMonth(
  tx: Tx,
  kinds: readonly FactKind[],
  from: string,
  to: string,
  size: number,
): Promise<Fact[]> {
  const found = rowsOf<Omit<Fact, "kind" | "value"> & { kind: string; value: unknown }>(
    await tx.execute(sql`
      select site, kind, key, from_day::text as "from", to_day::text as "to", value, ledger_index::int as "ledgerIndex",
             declared_on::text as "declaredOn"
      from facts
      where ledger_index <= ${size} and kind in (select jsonb_array_elements_text(${JSON.stringify(kinds)}::jsonb))
        and (kind in (select jsonb_array_elements_text(${JSON.stringify(OF_ANY_DAY)}::jsonb))
             or (from_day <= ${to}::date and (to_day is null or to_day >= ${from}::date)))
      order by ledger_index, site, kind, key, from_day`),
  );
  return found.map((fact) => ({
    ...fact,
    kind: fact.kind as FactKind,
    value: fact.value as FactValue<FactKind> | null,
  }));
}

/**
 * Spans of fuel that touch some days of their site, and those still open that began before a day; one query for all.
 *
 * Site by site, each of the two through an index of its own: a join, or both in one condition, would read the spans of
 * all time.
 */
export async function fuelSpansTouching(
  tx: Tx,
  days: readonly SiteDays[],
  openUntil: string | null,
  size: number,
): Promise<FuelSpan[]> {
  const found = rowsOf<FuelSpan & { gone: boolean; fuel: string; how: string; unit: string }>(
    await tx.execute(sql`
      select w.site, l."from"::text as "from", l."to"::text as "to", l.fuel, l.how, l.unit, l.low, l.best, l.high, l.shared, l.gone
      from jsonb_to_recordset(${JSON.stringify(days)}::jsonb) as w(site int, "from" date, "to" date)
      cross join lateral (
        select distinct on (s.from_day, s.to_day, s.fuel, s.how, s.unit)
               s.from_day as "from", s.to_day as "to", s.fuel, s.how, s.unit, s.low, s.best, s.high, s.shared, s.gone
        from (
          select * from fuel_spans
          where site = w.site and to_day >= w."from" and from_day <= w."to" and ledger_index <= ${size}
          union all
          select * from fuel_spans
          where site = w.site and how = 'pending' and from_day <= ${openUntil}::date and ledger_index <= ${size}
            and not (to_day >= w."from" and from_day <= w."to")) s
        order by s.from_day desc, s.to_day desc, s.fuel desc, s.how desc, s.unit desc, s.ledger_index desc) l`),
  );
  return found
    .filter(({ gone }) => !gone)
    .map(({ gone: _gone, fuel, how, unit, ...span }) => ({
      ...span,
      fuel: fuel as Fuel,
      how: how as HowKnown,
      unit: unit as FuelUnit,
    }));
}

/** A day sum as it comes packed. */
type Packed = readonly [
  day: string,
  method: string,
  measure: string,
  batches: number,
  loads: number,
  num: number,
  den: number,
];

/**
 * Day sums of some measures on some days of each site, as known at a size of the ledger; one query for all sites.
 *
 * Site by site backwards through the index, so that neither other days are read nor anything sorted; packed a row a site.
 */
export async function daySumsWithin(
  tx: Tx,
  days: readonly SiteDays[],
  measures: readonly Summed[],
  size: number,
): Promise<DaySum[]> {
  if (days.length === 0) return [];
  const found = rowsOf<{ site: number; sums: Packed[] | null }>(
    await tx.execute(sql`
      select w.site, l.sums
      from jsonb_to_recordset(${JSON.stringify(days)}::jsonb) as w(site int, "from" date, "to" date)
      cross join lateral (
        select json_agg(json_build_array(day, method, measure, batches, loads, num, den) order by day, method, measure) as sums
        from (
          select distinct on (s.day, s.method, s.measure) s.day, s.method, s.measure, s.batches, s.loads, s.num, s.den
          from day_sums s
          where s.site = w.site and s.day between w."from" and w."to" and s.ledger_index <= ${size}
            and s.measure = any (array(select jsonb_array_elements_text(${JSON.stringify(measures)}::jsonb)))
          order by s.day desc, s.method desc, s.measure desc, s.ledger_index desc) latest
        where batches > 0) l`),
  );
  return found.flatMap(({ site, sums }) =>
    (sums ?? []).map(([day, method, measure, batches, loads, num, den]) => ({
      site,
      day,
      method: method as Method,
      measure: measure as Summed,
      batches,
      loads,
      num,
      den,
    })),
  );
}

/**
 * Batch numbers of the days asked for, and of all days before them the highest of each site: what an unbroken series of
 * numbers owes. Batches are read for the sites that declared such a series and for no other.
 */
export async function seriesNumbers(
  tx: Tx,
  days: readonly SiteDays[],
  size: number,
): Promise<{ site: number; number: string; day: string }[]> {
  if (days.length === 0) return [];
  return rowsOf<{ site: number; number: string; day: string }>(
    await tx.execute(sql`
      with known as (
        select distinct on (b.batch) b.site, b.number, b.day, b.withdrawn, w."from", w."to"
        from batch_revisions b
        join jsonb_to_recordset(${JSON.stringify(days)}::jsonb) as w(site int, "from" date, "to" date) on w.site = b.site
        where b.ledger_index <= ${size}
        order by b.batch, b.ledger_index desc),
      numbered as (
        select site, number, day, day >= "from" as inside, (regexp_match(number, '(\\d{1,9})\\D*$'))[1]::bigint as counted
        from known where number is not null and not withdrawn and day <= "to"),
      highest as (
        select distinct on (site) site, number, day from numbered
        where not inside and counted is not null order by site, counted desc, day, number)
      select site, number, day::text as day from numbered where inside
      union all
      select site, number, day::text as day from highest
      order by 1, 3, 2`),
  );
}
