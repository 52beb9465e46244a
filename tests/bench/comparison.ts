/**
 * The comparison of 500 sites in one month at two sizes, 50 thousand and 5 million batches, on PostgreSQL; beside DuckDB
 * scanning the same batches for the same sums. Everything is generated in the databases, by the same formulas.
 * Goals: at most half of DuckDB's time, and at most 1.1 × between the two sizes.
 *
 * npx tsx tests/bench/comparison.ts [batches of the small size] [batches of the large size]
 */
import { DuckDBInstance } from "@duckdb/node-api";
import postgres from "postgres";
import { openStore } from "#db/client";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { OPERATOR } from "#server/terms/person";
import { throwAway } from "../setup/postgres";

const SITES = 500;
const MONTHS = 36;
const ASKED = "2030-06";
const ROUNDS = 21;
const sizes = [Number(process.argv[2] ?? 50_000), Number(process.argv[3] ?? 5_000_000)];

/** Batches by number, the same in both databases: a site, a day, and weights that vary without a random number. */
const batches = (count: number) => `
  select i, (1 + i % ${SITES})::int as site,
         date '2028-01-01' + ((i / ${SITES}) % ${Math.floor(count / SITES)} * ${MONTHS * 30.4} / ${Math.floor(count / SITES)})::int as day,
         1.0 + (i * 7919 % 997) / 100.0 as fresh, (1.0 + (i * 7919 % 997) / 100.0) * (0.28 + (i * 104729 % 101) / 1000.0) as dried,
         15.0 + i % 20 as minutes`;

const median = (times: number[]) => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;
const p95 = (times: number[]) => [...times].sort((a, b) => a - b)[Math.floor(times.length * 0.95)] ?? Number.NaN;

const started = await throwAway();
if (started === null) throw new Error("this bench needs PostgreSQL");
const medians: number[] = [];
try {
  for (const count of sizes) medians.push(await measured(started.urls, count));
} finally {
  started.stop();
}
const [small = 0, large = 0] = medians;
console.log(`large over small: ${(large / small).toFixed(2)} × (goal 1.1)`);

async function measured(
  urls: { superUrl: string; ownerUrl: string; loginUrl: string },
  count: number,
): Promise<number> {
  const name = `bench_${count}`;
  const at = (url: string) => url.replace(/\/[^/]*$/, `/${name}`);
  const owner = postgres(urls.ownerUrl, { max: 1, onnotice: () => {} });
  await owner.unsafe(`create database ${name}`);
  await owner.end();
  const store = await openStore({ dataDir: "", databaseUrl: at(urls.loginUrl), databaseOwnerUrl: at(urls.ownerUrl) });
  await begin(store, () => new Date("2027-01-01T00:00:00Z"));
  await generate(at(urls.superUrl), count);
  const bounds = { bytes: 1, unpackedBytes: 1, rows: 1, columns: 1, cellCharacters: 1, sheets: 1 };
  const api = callerOf({ store, person: OPERATOR, clock: () => new Date("2031-01-01T00:00:00Z"), bounds });
  const duck = await DuckDBInstance.create(":memory:", { threads: "2" });
  const asked = await duck.connect();
  await asked.run(`create table batches as ${batches(count)} from range(0, ${count}) t(i) order by day`);

  const ours: number[] = [];
  const theirs: number[] = [];
  for (let round = 0; round < ROUNDS + 3; round++) {
    const began = performance.now();
    const { rows } = await api.compare.month({ month: ASKED });
    const between = performance.now();
    const scanned = await asked.runAndReadAll(`
      select site, count(*) as batches, sum(fresh) as fresh, sum(dried) as dried, sum(minutes) as minutes, sum(fresh * fresh) as fresh2,
             sum(dried * dried) as dried2, sum(fresh * dried) as both, count(distinct day) as days
      from batches where day between date '${ASKED}-01' and date '${ASKED}-30' group by site order by site`);
    scanned.getRowObjects();
    if (round < 3) continue;
    ours.push(between - began);
    theirs.push(performance.now() - between);
    if (rows.length < SITES) throw new Error(`only ${rows.length} sites were answered`);
  }
  await store.close();
  const ratio = median(ours) / median(theirs);
  console.log(
    `${count} batches, one month of ${SITES} sites: ${median(ours).toFixed(1)} ms (p95 ${p95(ours).toFixed(1)}), DuckDB's scan ${median(theirs).toFixed(1)} ms: ${ratio.toFixed(2)} × (goal 0.5)`,
  );
  return median(ours);
}

async function generate(url: string, count: number): Promise<void> {
  const sql = postgres(url, { max: 1, onnotice: () => {} });
  await sql.unsafe(`insert into sites select i, 'S' || i, 1 from generate_series(1, ${SITES}) i`);
  await sql.unsafe(`insert into facts (site, kind, key, from_day, value, declared_on, ledger_index)
    select i, kind, '', '2028-01-01', value::jsonb, '2027-01-01', 1 from generate_series(1, ${SITES}) i,
    (values ('open', '{}'), ('method', '{"method":"sand-pan"}'), ('pans', '{"pans":2}'), ('hours', '{"perDay":8}'), ('main-fuel', '{"fuel":"lpg"}'),
            ('schedule', '{"weekdays":[1,2,3,4,5,6,7],"perDay":9,"of":"batches"}')) f(kind, value)`);
  await sql.unsafe(`insert into batch_revisions (batch, site, day, method, grain, loads, number, fresh_exact, fresh_kg, dried_exact, dried_kg,
      dried_to_come, minutes_exact, minutes, in_time, withdrawn, reason, ledger_index)
    select gen_random_uuid(), site, day, 'sand-pan', 'load', 1, i::text, fresh::text, fresh, dried::text, dried, false, minutes::text, minutes, true, false, 'new', 1
    from (${batches(count)} from generate_series(0::bigint, ${count - 1}) t(i) order by 3) b`);
  await sql.unsafe(`insert into day_sums
    select site, day, 'sand-pan', measure, count(*), count(*), sum(num), sum(den), 1
    from batch_revisions b, lateral (values ('here', 1.0, 1.0), ('in-time', 1.0, 1.0), ('fresh', fresh_kg, 1.0), ('dry-yield', dried_kg, fresh_kg),
      ('pan-time', fresh_kg, minutes), ('minutes', minutes, 1.0)) m(measure, num, den) group by site, day, measure`);
  await sql.unsafe(`insert into month_sums
    select to_char(day, 'YYYY-MM'), site, method, measure, count(*), sum(batches), sum(loads), sum(num), sum(den), sum(num * num), sum(den * den), sum(num * den), 1
    from day_sums group by 1, 2, 3, 4`);
  await sql.unsafe("vacuum analyze");
  await sql.end();
}
