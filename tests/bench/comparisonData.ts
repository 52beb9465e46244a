import type { DuckDBConnection } from "@duckdb/node-api";
import postgres from "postgres";
import { dayNumber, daysOfMonth, monthsBetween, plusMonths } from "#server/terms/days";

export const SITES = 500;
/** Batches of a site in a month, about. */
const A_MONTH = 100;
export const ASKED = "2026-03";

/** The month asked for is the last of a history that is the longer, the more batches there are; so it shows the same. */
export function historyOf(count: number) {
  const months = Math.ceil(count / SITES / A_MONTH);
  const first = `${plusMonths(ASKED, 1 - months)}-01`;
  return { first, days: dayNumber(daysOfMonth(ASKED).to) - dayNumber(first) + 1, each: Math.floor(count / SITES) };
}

/**
 * Batches by number, the same in both databases: a site, a day, and weights that vary without a random number. Divisions
 * come out even, since one database divides whole numbers into whole ones and the other does not.
 */
const batches = (count: number) => {
  const { first, days, each } = historyOf(count);
  return `
  select i, (1 + i % ${SITES})::int as site, date '${first}' + ((turn * ${days} - turn * ${days} % ${each}) / ${each})::int as day,
         (1.0 + (i * 7919 % 997) / 100.0)::float8 as fresh,
         ((1.0 + (i * 7919 % 997) / 100.0) * (0.28 + (i * 104729 % 101) / 1000.0))::float8 as dried,
         (15.0 + i % 20)::float8 as minutes
  from (select i, ((i - i % ${SITES}) / ${SITES})::bigint % ${each} as turn`;
};

/** Fills PostgreSQL: sites with their facts, batches in the order of days, and the sums that sending would have kept. */
export async function fill(url: string, count: number): Promise<void> {
  const { first } = historyOf(count);
  const sql = postgres(url, { max: 1, onnotice: () => {} });
  await sql.unsafe(`insert into sites select i, 'S' || i, 1 from generate_series(1, ${SITES}) i`);
  await sql.unsafe(`insert into facts (site, kind, key, from_day, value, declared_on, ledger_index)
    select i, kind, '', '${first}', value::jsonb, '${first}', 1 from generate_series(1, ${SITES}) i,
    (values ('open', '{}'), ('method', '{"method":"sand-pan"}'), ('pans', '{"pans":2}'), ('hours', '{"perDay":8}'), ('main-fuel', '{"fuel":"lpg"}'),
            ('schedule', '{"weekdays":[1,2,3,4,5,6,7],"perDay":3,"of":"batches"}')) f(kind, value)`);
  await sql.unsafe(`insert into batch_revisions (batch, site, day, method, grain, loads, number, fresh_exact, fresh_kg, dried_exact, dried_kg,
      dried_to_come, minutes_exact, minutes, in_time, withdrawn, reason, ledger_index)
    select gen_random_uuid(), site, day, 'sand-pan', 'load', 1, i::text, fresh::text, fresh, dried::text, dried, false, minutes::text, minutes, true, false, 'new', 1
    from (${batches(count)} from generate_series(0::bigint, ${count - 1}) t(i)) numbered order by 3) b`);
  await sql.unsafe(`insert into day_sums
    select site, day, 'sand-pan', measure, count(*), count(*), sum(num), sum(den), 1
    from batch_revisions b, lateral (values ('here', 1.0, 1.0), ('in-time', 1.0, 1.0), ('fresh', fresh_kg, 1.0), ('dry-yield', dried_kg, fresh_kg),
      ('pan-time', fresh_kg, minutes), ('minutes', minutes, 1.0), ('scale', 0.00001, 0.00001)) m(measure, num, den) group by site, day, measure
    order by to_char(day, 'YYYY-MM'), site, day, measure`); // a month of a site at once, as logs come
  await sql.unsafe(`create temporary table of_months as
    select to_char(day, 'YYYY-MM') as month, site, method, measure, count(*) as days, sum(batches) as batches, sum(loads) as loads,
      sum(num) as num, sum(den) as den, sum(num * num) as num2, sum(den * den) as den2, sum(num * den) as num_den, 1 as ledger_index
    from day_sums group by 1, 2, 3, 4`);
  for (const month of monthsBetween(first.slice(0, 7), ASKED))
    await sql.unsafe(`insert into month_sums select * from of_months where month = '${month}' order by site`);
  await sql.unsafe("vacuum analyze");
  await sql.end();
}

/** Every site weighs its gas four times a month, so that the month's fuel hangs on the sums of its days. */
export async function fillFuel(url: string, count: number): Promise<void> {
  const { first } = historyOf(count);
  const sql = postgres(url, { max: 1, onnotice: () => {} });
  await sql.unsafe(`insert into fuel_spans
    select i, week, week + 6, 'lpg', 'weighed', 'kg', 19.9, 20, 20.1, false, false, 1
    from generate_series(date '${first}', date '${ASKED}-01', '1 month') month, generate_series(1, ${SITES}) i,
      lateral (select month::date + 7 * w as week from generate_series(0, 3) w) weeks
    order by month, i`);
  await sql.unsafe("vacuum analyze fuel_spans");
  await sql.end();
}

/** Every month sum of the month asked for changed nineteen times more, as it does where a log is sent day by day. */
export async function revise(url: string, revisions: number): Promise<void> {
  const sql = postgres(url, { max: 1, onnotice: () => {} });
  for (let index = 2; index <= revisions; index++)
    await sql.unsafe(`insert into month_sums
      select month, site, method, measure, days, batches, loads, num, den, num2, den2, num_den, ${index}
      from month_sums where month = '${ASKED}' and ledger_index = 1 order by site`);
  await sql.unsafe("vacuum analyze month_sums, month_latest");
  await sql.end();
}

/** The same batches in a columnar database, in the order of days, which lets it skip what is not of the month. */
export async function fillColumns(to: DuckDBConnection, count: number): Promise<void> {
  await to.run(`create table batches as ${batches(count)} from range(0, ${count}) t(i)) numbered order by day`);
}

/** What each measure counts, and what it adds up: the batches that serve it, its numerator and its denominator. */
const MEASURES = [
  ["here", "true", "1", "1"],
  ["fresh", "fresh is not null", "fresh", "1"],
  ["dry-yield", "fresh is not null and dried is not null", "dried", "fresh"],
  ["pan-time", "fresh is not null and minutes is not null", "fresh", "minutes"],
  ["scale", "fresh is not null and dried is not null", "0.00001::float8", "0.00001::float8"],
] as const;
export const SCANNED = MEASURES.map(([measure]) => measure);

const ofDay = ([measure, serves, num, den]: (typeof MEASURES)[number]) => `
  count(*) filter (${serves}) as "${measure} n", sum(${num}) filter (${serves}) as "${measure} num", sum(${den}) filter (${serves}) as "${measure} den"`;
const ofMonth = ([measure]: (typeof MEASURES)[number]) => {
  const [n, num, den] = ["n", "num", "den"].map((part) => `"${measure} ${part}"`);
  return `
  count(*) filter (${n} > 0) as "${measure} days", sum(${n}) as "${measure} batches", sum(${num}) as "${measure} num", sum(${den}) as "${measure} den",
  sum(${num} * ${num}) as "${measure} num2", sum(${den} * ${den}) as "${measure} den2", sum(${num} * ${den}) as "${measure} numDen"`;
};

/** The same sums from the batches of the month, asked by names such as "dry-yield num2"; squares are over days. */
export const SCAN = `
  select site, ${MEASURES.map(ofMonth).join(",")}
  from (select site, day, ${MEASURES.map(ofDay).join(",")}
        from batches where day between date '${ASKED}-01' and date '${ASKED}-31' group by site, day)
  group by site order by site`;
