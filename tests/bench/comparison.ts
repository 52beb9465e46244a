/**
 * The comparison of 500 sites in one month at two sizes, 50 thousand and 5 million batches, on PostgreSQL; beside DuckDB
 * scanning the same batches for the same sums. Everything is generated in the databases, by the same formulas. The month
 * asked for holds about 100 batches of each site at both sizes; what grows is the history before it.
 *
 * - The comparison query: all sums by which sites are compared, as objects. Goals: at most half of DuckDB's time, and at
 *   most 1.1 × between the two sizes. Both must answer the same numbers.
 * - The whole answer: the procedure behind the page, without fuel and with gas weighed weekly at every site.
 * - The page itself as the real server sends it, with that fuel; at most 1.1 × as well.
 * - The query after every month sum changed twenty times, beside going through the revisions.
 *
 * Both sizes are asked in turn, either of them first in every other round, so that whatever else the machine does hits both.
 *
 * npx tsx tests/bench/comparison.ts [batches of the small size] [batches of the large size]
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
import { servedPage } from "./comparisonPage";

const ROUNDS = 101;
const ROUNDS_OF_ANSWERS = 31;
const REVISIONS = 20;
const sizes = process.argv.slice(2).map(Number);
const [small = 50_000, large = 5_000_000] = sizes;
const bounds = { bytes: 1, unpackedBytes: 1, rows: 1, columns: 1, cellCharacters: 1, sheets: 1 };

type Urls = { superUrl: string; ownerUrl: string; loginUrl: string };
/** The same task at the small and at the large size. */
type Both<T = () => Promise<unknown>> = readonly [T, T];

const started = await throwAway();
if (started === null) throw new Error("this bench needs PostgreSQL");
try {
  await compare([await filled(started.urls, small), await filled(started.urls, large)]);
} finally {
  started.stop();
}

async function compare(both: Both<Awaited<ReturnType<typeof filled>>>): Promise<void> {
  const [a, b] = both;
  console.log(`one month of ${SITES} sites, at ${small} and at ${large} batches in turn; medians`);
  const once = await asPerson(a.corridor, (atSmall) =>
    asPerson(b.corridor, async (atLarge) => {
      same(await comparedSums(atSmall, ASKED, 1), await a.scan());
      same(await comparedSums(atLarge, ASKED, 1), await b.scan());
      const floor = sql`select count(*) from month_latest where month = ${ASKED}`;
      const [scans, , queries] = await inTurn(
        [a.scan, b.scan],
        [() => atSmall.execute(floor), () => atLarge.execute(floor)],
        [() => comparedSums(atSmall, ASKED, 1), () => comparedSums(atLarge, ASKED, 1)],
      ).then((all) =>
        told(all, [
          "DuckDB's scan for the same sums",
          "bare index range and round trip",
          "comparison query (goal 1.1)",
        ]),
      );
      console.log(`  comparison query over the scan: ${over(queries, scans)} (goal 0.5)`);
      return queries;
    }),
  );

  const answers = [a.answer, b.answer] as const;
  told(await inTurnFew(answers), ["whole answer"]);
  for (const { urls, count } of both) await fillFuel(urls.superUrl, count);
  told(await inTurnFew(answers), ["whole answer with weekly fuel"]);
  const path = `/compare?month=${ASKED}`;
  const pages = [await servedPage(a.api, a.urls, path), await servedPage(b.api, b.urls, path)] as const;
  try {
    told(await inTurnFew([pages[0].ask, pages[1].ask]), ["page (goal 1.1)"]);
    console.log(`  page: ${(await Promise.all(pages.map(({ ask }) => ask()))).join(" and ")} bytes`);
  } finally {
    for (const { stop } of pages) await stop();
  }

  for (const { urls } of both) await revise(urls.superUrl, REVISIONS);
  await asPerson(a.corridor, (atSmall) =>
    asPerson(b.corridor, async (atLarge) => {
      const [after, through] = told(
        await inTurnFew(
          [() => comparedSums(atSmall, ASKED, REVISIONS), () => comparedSums(atLarge, ASKED, REVISIONS)],
          [() => monthSumsOf(atSmall, ASKED, null, REVISIONS), () => monthSumsOf(atLarge, ASKED, null, REVISIONS)],
        ),
        [`comparison query after ${REVISIONS} revisions`, "going through the revisions"],
      );
      console.log(`  the query after ${REVISIONS} revisions over that with one: ${over(after, once)}`);
      console.log(`  going through the revisions over that: ${over(through, after)}`);
    }),
  );
  for (const { store } of both) await store.close();
}

/** A store with so many batches, and the same in columns. */
async function filled(of: Urls, count: number) {
  const at = (url: string) => url.replace(/\/[^/]*$/, `/bench_${count}`);
  const urls = { superUrl: at(of.superUrl), url: at(of.loginUrl), ownerUrl: at(of.ownerUrl) };
  const owner = postgres(of.ownerUrl, { max: 1, onnotice: () => {} });
  await owner.unsafe(`create database bench_${count}`);
  await owner.end();
  const store = await openStore({ dataDir: "", databaseUrl: urls.url, databaseOwnerUrl: urls.ownerUrl });
  await begin(store, () => new Date("2015-09-01T00:00:00Z"));
  await fill(urls.superUrl, count);
  const duck = await (await DuckDBInstance.create(":memory:", { threads: "2" })).connect();
  await fillColumns(duck, count);
  const prepared = await duck.prepare(SCAN);
  const api = callerOf({ store, person: OPERATOR, clock: () => new Date("2026-11-01T00:00:00Z"), bounds });
  return {
    store,
    count,
    urls,
    api,
    corridor: { store, person: OPERATOR.id },
    scan: async () => (await prepared.runAndReadAll()).getRowObjectsJS(),
    answer: async () => {
      const { rows } = await api.compare.month({ month: ASKED });
      if (rows.length < SITES) throw new Error(`only ${rows.length} sites were answered`);
    },
  };
}

function inTurn(...tasks: readonly Both[]): Promise<Times[]> {
  return rounds(ROUNDS, tasks);
}

function inTurnFew(...tasks: readonly Both[]): Promise<Times[]> {
  return rounds(ROUNDS_OF_ANSWERS, tasks);
}

type Times = Both<readonly number[]>;

/** Milliseconds of several tasks that are done in turn at both sizes, in order of time. */
async function rounds(count: number, tasks: readonly Both[]): Promise<Times[]> {
  const times = tasks.map((): Both<number[]> => [[], []]);
  for (let round = -3; round < count; round++)
    for (const [i, task] of tasks.entries())
      for (const size of round % 2 === 0 ? ([0, 1] as const) : ([1, 0] as const)) {
        const began = performance.now();
        await task[size]();
        if (round >= 0) times[i]?.[size].push(performance.now() - began);
      }
  for (const of of times.flat()) of.sort((x, y) => x - y);
  return times;
}

/** Prints each task's median and 95th hundredth at both sizes, and answers the medians. */
function told(times: readonly Times[], names: readonly string[]): Both<number>[] {
  return times.map(([atSmall, atLarge], i) => {
    const [[p50, p95], [q50, q95]] = [shares(atSmall), shares(atLarge)];
    const [mine, theirs] = [`${p50.toFixed(2)} (p95 ${p95.toFixed(2)})`, `${q50.toFixed(2)} (p95 ${q95.toFixed(2)})`];
    console.log(`  ${names[i]}: ${mine} and ${theirs} ms, ${(q50 / p50).toFixed(2)} ×`);
    return [p50, q50];
  });
}

function shares(sorted: readonly number[]): Both<number> {
  const at = (share: number) => sorted[Math.floor(sorted.length * share)] ?? Number.NaN;
  return [at(0.5), at(0.95)];
}

/** "0.40 × and 0.21 ×": one task over another, at the small and at the large size. */
function over(one: Both<number> | undefined, other: Both<number> | undefined): string {
  const ratio = (size: 0 | 1) => `${((one?.[size] ?? Number.NaN) / (other?.[size] ?? Number.NaN)).toFixed(2)} ×`;
  return `${ratio(0)} and ${ratio(1)}`;
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
