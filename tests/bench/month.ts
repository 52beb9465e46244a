/**
 * What sending a month of 280 rows costs beside few and beside many stored batches: 500 sites, each with the days of its
 * past generated in the database. Processor time of this process and of the database, best of many months, taken in turn.
 * Goal: at most 1.1 ×.
 *
 * npx tsx tests/bench/month.ts [few, 600000 by default] [many, 5000000 by default] [months, 24 by default]
 */
import postgres from "postgres";
import { openStore } from "#db/client";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { OPERATOR } from "#server/terms/person";
import { throwAway } from "../setup/postgres";
import { backFile, siteCode } from "./backFile";
import { processorMs } from "./processorTime";

const [few = 600_000, many = 5_000_000, months = 24] = process.argv.slice(2).map(Number);
const SITES = 500;
const A_DAY = 10;
/** the first day of the months sent; the past ends the day before */
const FIRST = "2000-01-01";
const BOUNDS = { bytes: 1e9, unpackedBytes: 1e9, rows: 1e6, columns: 512, cellCharacters: 32_767, sheets: 40 };

const begun = await throwAway();
if (begun === null) throw new Error("this machine has no PostgreSQL");
const { urls, stop } = begun;
const { port } = new URL(urls.superUrl);

async function opened(count: number) {
  const name = `month_${count}`;
  const at = (url: string) => url.replace(/\/[^/]*$/, `/${name}`);
  const mighty = postgres(urls.superUrl, { max: 1, onnotice: () => {} });
  await mighty.unsafe(`create database ${name} owner evendry_owner`);
  await mighty.end();
  const store = await openStore({ dataDir: "", databaseUrl: at(urls.loginUrl), databaseOwnerUrl: at(urls.ownerUrl) });
  await begin(store, () => new Date());
  const api = callerOf({ store, person: OPERATOR, clock: () => new Date("2032-01-01T00:00:00Z"), bounds: BOUNDS });
  for (let site = 0; site < SITES; site++) {
    const declarations = [
      { kind: "open", from: "1980-01-01", value: {} },
      { kind: "method", from: "1980-01-01", value: { method: "sand-pan" } },
    ] as const;
    await api.sites.open({ code: siteCode(site), declarations: [...declarations] });
  }
  const owner = postgres(at(urls.superUrl), { max: 1, onnotice: () => {} });
  await fill(owner, count);
  await owner.end();
  return { api, store, times: [] as number[] };
}

/** The past of every site: rows, batches and links, an amount of fuel a row, a span a day, and the sums of the days. */
async function fill(sql: postgres.Sql, count: number): Promise<void> {
  const days = Math.ceil(count / SITES / A_DAY);
  await sql.unsafe("set synchronous_commit = off; set maintenance_work_mem = '256MB'");
  // Secondary indexes are built once at the end.
  const indexes = await sql<{ name: string; made: string }[]>`
    select indexname as name, indexdef as made from pg_indexes where schemaname = 'public'
      and tablename in ('rows', 'row_batches', 'batch_revisions', 'fuel_entries') and indexname not in (select conname from pg_constraint)`;
  for (const { name } of indexes) await sql.unsafe(`drop index ${name}`);
  await sql.unsafe(
    "create function pg_temp.id_of(n bigint) returns uuid immutable as $$ select lpad(to_hex(n), 32, '0')::uuid $$ language sql",
  );
  await sql.unsafe(`create unlogged table past as
    select s as site, date '${FIRST}' - d as day, l as load, pg_temp.id_of((s * ${days} + d) * ${A_DAY} + l) as batch, pg_temp.id_of(1000000000 + s) as file
      from generate_series(1, ${SITES}) s, generate_series(1, ${days}) d, generate_series(1, ${A_DAY}) l`);
  await sql.unsafe(`
    insert into batch_revisions (batch, site, day, method, grain, loads, number, pan, fresh_exact, fresh_kg, dried_exact, dried_kg,
        dried_to_come, minutes_exact, minutes, in_time, file, withdrawn, reason, ledger_index)
      select batch, site, day, 'sand-pan', 'load', 1, load::text, (load % 3)::text, '3.1', 3.1, '1.02', 1.02,
        false, '25', 25, true, file, false, 'new', 2 from past;
    insert into rows (file, sheet, row, site, fate, grain, dried_only, reasons, cells, sealed, ledger_index)
      select file, 'log', row_number() over (partition by file), site, case when load = 10 and site % 5 = 0 then 'held' else 'counted' end,
        'load', false, '[]', '[{"column":"D","meaning":"fresh","text":"3.1"}]', '{}', 2 from past;
    insert into row_batches (file, sheet, row, batch, site, part, ledger_index)
      select file, 'log', row_number() over (partition by file), batch, site, 'whole', 2 from past;
    insert into fuel_entries (id, site, day, fuel, batch, said, file, withdrawn, ledger_index)
      select batch, site, day, 'charcoal', batch, '{"kind":"amount","amount":{"exact":"0.5","value":0.5},"unit":"kg"}', file, false, 2 from past;
    insert into fuel_spans select site, day, day, 'charcoal', 'weighed', 'kg', 5, 5, 5, false, false, 2 from past group by site, day;
    insert into day_sums select site, day, 'sand-pan', measure, 10, 10, 31, 10.2, 2
      from (select distinct site, day from past) p, unnest(array['here', 'fresh', 'dry-yield', 'pan-time', 'scale']) measure;
    drop table past`);
  for (const { made } of indexes) await sql.unsafe(made);
  // Else the database would tidy up while we measure.
  await sql.unsafe("vacuum analyze");
  await sql.unsafe("checkpoint");
}

const sides = [await opened(few), await opened(many)] as const;
for (let month = 0; month < months; month++) {
  for (const { api, times } of sides) {
    // Every month is another site's, so that all meet a past of the same length.
    const code = siteCode(month * 7 + 3);
    const started = processorMs(port);
    const sending = await api.logs.send({
      site: code,
      bytes: backFile(280, 1),
      name: "month.csv",
      answers: { alone: true },
    });
    times.push(processorMs(port) - started);
    if (!("slip" in sending) || sending.slip.batches.new !== 280)
      throw new Error(JSON.stringify(sending).slice(0, 400));
  }
}
const [small, large] = sides.map(({ times }) => Math.min(...times)) as [number, number];
console.log(
  `a month of 280 rows: ${small.toFixed(0)} ms beside ${few} batches, ${large.toFixed(0)} ms beside ${many}: ${(large / small).toFixed(2)} ×`,
);
for (const { store } of sides) await store.close();
stop();
