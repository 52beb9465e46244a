/**
 * The comparison of 500 sites in one month at two sizes, 50 thousand and 5 million batches, on PostgreSQL; beside DuckDB
 * scanning the same batches for the same sums. Everything is generated in the databases, by the same formulas.
 *
 * - The comparison query: all sums by which sites are compared, as objects. Goals: at most half of DuckDB's time, and at
 *   most 1.1 × between the two sizes. Both must answer the same numbers.
 * - The whole answer: the procedure behind the page, without fuel and with gas weighed weekly at every site.
 * - The query after every month sum changed twenty times, beside going through the revisions.
 * - With "page" as third word, the page itself as the real server sends it.
 *
 * npx tsx tests/bench/comparison.ts [batches of the small size] [batches of the large size] [page]
 */
import { DuckDBInstance } from "@duckdb/node-api";
import { sql } from "drizzle-orm";
import postgres from "postgres";
import { asPerson } from "#db/asPerson";
import { openStore } from "#db/client";
import { comparedSums, monthSumsOf } from "#db/queries/sums";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { OPERATOR } from "#server/terms/person";
import type { MonthSum } from "#server/terms/sums";
import { throwAway } from "../setup/postgres";
import { ASKED, fill, fillColumns, fillFuel, revise, SCAN, SCANNED, SITES } from "./comparisonData";
import { pageTimes } from "./comparisonPage";

const ROUNDS = 41;
const ROUNDS_OF_ANSWERS = 11;
const REVISIONS = 20;
const [small = "50000", large = "5000000", page] = process.argv.slice(2);
const bounds = { bytes: 1, unpackedBytes: 1, rows: 1, columns: 1, cellCharacters: 1, sheets: 1 };

type Times = Record<"floor" | "query" | "scan" | "answer" | "withFuel", number>;
type Urls = { superUrl: string; ownerUrl: string; loginUrl: string };

const started = await throwAway();
if (started === null) throw new Error("this bench needs PostgreSQL");
try {
  const [atSmall, atLarge] = [await measured(started.urls, Number(small)), await measured(started.urls, Number(large))];
  console.log(`${large} over ${small} batches:`);
  for (const [name, key, goal] of [
    ["comparison query", "query", " (goal 1.1)"],
    ["whole answer", "answer", ""],
    ["DuckDB's scan", "scan", ""],
  ] as const)
    console.log(`  ${name} ${(atLarge[key] / atSmall[key]).toFixed(2)} ×${goal}`);
} finally {
  started.stop();
}

async function measured(urls: Urls, count: number): Promise<Times> {
  const at = (url: string) => url.replace(/\/[^/]*$/, `/bench_${count}`);
  const owner = postgres(urls.ownerUrl, { max: 1, onnotice: () => {} });
  await owner.unsafe(`create database bench_${count}`);
  await owner.end();
  const store = await openStore({ dataDir: "", databaseUrl: at(urls.loginUrl), databaseOwnerUrl: at(urls.ownerUrl) });
  await begin(store, () => new Date("2023-09-01T00:00:00Z"));
  await fill(at(urls.superUrl), count);
  const api = callerOf({ store, person: OPERATOR, clock: () => new Date("2026-11-01T00:00:00Z"), bounds });
  const duck = await (await DuckDBInstance.create(":memory:", { threads: "2" })).connect();
  await fillColumns(duck, count);
  const scan = await duck.prepare(SCAN);
  const corridor = { store, person: OPERATOR.id };

  const { floor, query, scanned } = await asPerson(corridor, async (tx) => {
    same(await comparedSums(tx, ASKED, 1), (await scan.runAndReadAll()).getRowObjectsJS());
    const [floor, query, scanned] = await inTurn([
      () => tx.execute(sql`select count(*) from month_latest where month = ${ASKED}`),
      () => comparedSums(tx, ASKED, 1),
      async () => (await scan.runAndReadAll()).getRowObjectsJS(),
    ]);
    return { floor: floor!, query: query!, scanned: scanned! };
  });
  const ask = async () => {
    const { rows } = await api.compare.month({ month: ASKED });
    if (rows.length < SITES) throw new Error(`only ${rows.length} sites were answered`);
  };
  const [answer = Number.NaN] = await inTurn([ask], ROUNDS_OF_ANSWERS);
  await fillFuel(at(urls.superUrl));
  const [withFuel = Number.NaN] = await inTurn([ask], ROUNDS_OF_ANSWERS);
  await revise(at(urls.superUrl), REVISIONS);
  const [revised = Number.NaN, through = Number.NaN] = await asPerson(corridor, (tx) =>
    inTurn(
      [() => comparedSums(tx, ASKED, REVISIONS), () => monthSumsOf(tx, ASKED, null, REVISIONS)],
      ROUNDS_OF_ANSWERS,
    ),
  );
  const over = (a: number, b: number) => `${a.toFixed(2)} ms, ${(a / b).toFixed(2)} ×`;
  console.log(
    `${count} batches, one month of ${SITES} sites; medians of ${ROUNDS} rounds in turn, of answers ${ROUNDS_OF_ANSWERS}`,
  );
  console.log(`  DuckDB's scan for the same sums ${scanned.toFixed(2)} ms`);
  console.log(`  bare index range and round trip ${over(floor, scanned)} of it`);
  console.log(`  comparison query ${over(query, scanned)} of it (goal 0.5)`);
  console.log(`  whole answer ${over(answer, scanned)} of it`);
  console.log(`  whole answer with weekly fuel ${over(withFuel, scanned)} of it`);
  console.log(`  comparison query after ${REVISIONS} revisions ${over(revised, query)} of that with one`);
  console.log(`  going through the ${REVISIONS} revisions ${over(through, query)} of it`);
  if (page === "page") {
    const { median, p95, bytes } = await pageTimes(
      api,
      { url: at(urls.loginUrl), ownerUrl: at(urls.ownerUrl) },
      `/compare?month=${ASKED}`,
    );
    console.log(`  page, ${bytes} bytes: p50 ${median.toFixed(0)} ms, p95 ${p95.toFixed(0)} ms`);
  }
  await store.close();
  return { floor, query, scan: scanned, answer, withFuel };
}

/** Medians of several tasks that are done in turn, so that whatever else the machine does hits all of them. */
async function inTurn(tasks: readonly (() => Promise<unknown>)[], rounds = ROUNDS): Promise<number[]> {
  const times = tasks.map((): number[] => []);
  for (let round = -3; round < rounds; round++) {
    for (const [i, task] of tasks.entries()) {
      const began = performance.now();
      await task();
      if (round >= 0) times[i]?.push(performance.now() - began);
    }
  }
  return times.map((of) => of.sort((a, b) => a - b)[Math.floor(of.length / 2)] ?? Number.NaN);
}

/** Throws unless both say the same of every site, but for the order in which doubles were added up. */
function same(sums: readonly MonthSum[], scanned: readonly Record<string, unknown>[]): void {
  if (scanned.length !== SITES) throw new Error(`the scan answered ${scanned.length} sites`);
  const theirs = new Map(scanned.map((row) => [Number(row.site), row]));
  const parts = ["days", "batches", "num", "den", "num2", "den2", "numDen"] as const;
  if (sums.length !== SITES * SCANNED.length) throw new Error(`the query answered ${sums.length} sums`);
  for (const sum of sums)
    for (const part of parts) {
      const other = Number(theirs.get(sum.site)?.[`${sum.measure} ${part}`]);
      if (!(Math.abs(sum[part] / other - 1) < 1e-9))
        throw new Error(`site ${sum.site}, ${sum.measure} ${part}: ${sum[part]} and ${other}`);
    }
}
