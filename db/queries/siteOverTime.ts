import { type SQL, sql } from "drizzle-orm";
import type { TestResult } from "#server/terms/batch";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";

/** What a load says of the sand it was dried in. Without a pan nobody knows in whose. */
export interface SandUse {
  readonly pan: string | null;
  readonly day: string;
  readonly startMinute: number | null;
  readonly loads: number;
  readonly sandCycle: number | null;
  readonly newSand: boolean | null;
}

/** How many batches of a month carry a result of a test. */
export interface TestCount {
  readonly month: string;
  readonly test: "crush" | "crisp";
  readonly result: TestResult | null;
  readonly batches: number;
}

/** The latest revision of every batch that was ever on some days of a site and still is. */
function batchesWithin(site: number, from: string, to: string, size: number, columns: SQL): SQL {
  return sql`
    touched as (
      select distinct batch from batch_revisions
      where site = ${site} and ledger_index <= ${size} and day between ${from}::date and ${to}::date),
    latest as (
      select distinct on (b.batch) b.day, b.withdrawn, b.method, ${columns}
      from batch_revisions b join touched using (batch)
      where b.site = ${site} and b.ledger_index <= ${size}
      order by b.batch, b.ledger_index desc),
    here as (select * from latest where not withdrawn and day between ${from}::date and ${to}::date)`;
}

/**
 * Loads on pans of hot sand from `from` to `to`, and before them those of each pan since its last new sand or count of loads,
 * if that was on or after `earliest`: what the age of the sand is worked out from, and nothing else of a batch.
 */
export async function sandUses(
  tx: Tx,
  site: number,
  days: { readonly earliest: string; readonly from: string; readonly to: string },
  size: number,
): Promise<SandUse[]> {
  const columns = sql`b.pan, b.start_minute, b.loads, b.sand_cycle, b.new_sand`;
  return rowsOf<SandUse>(
    await tx.execute(sql`
      with ${batchesWithin(site, days.earliest, days.to, size, columns)},
      known as (
        select pan, max(day) as day from here
        where day < ${days.from}::date and (new_sand or sand_cycle is not null) group by pan)
      select here.pan, here.day::text as day, start_minute as "startMinute", loads, sand_cycle as "sandCycle",
             new_sand as "newSand"
      from here left join known on known.pan = here.pan
      where method = 'sand-pan' and (here.day >= ${days.from}::date or here.day >= known.day)
      order by here.pan, here.day, start_minute`),
  );
}

/** Crush and crisp tests of some days as logged, counted by month. */
export async function testCounts(tx: Tx, site: number, from: string, to: string, size: number): Promise<TestCount[]> {
  const found = rowsOf<Omit<TestCount, "test" | "result"> & { test: string; result: string | null }>(
    await tx.execute(sql`
      with ${batchesWithin(site, from, to, size, sql`b.crush_test, b.crisp`)},
      tested as (
        select day, 'crush' as test, crush_test as result from here
        union all select day, 'crisp', crisp from here)
      select to_char(day, 'YYYY-MM') as month, test, result, count(*)::int as batches
      from tested group by 1, 2, 3 order by 1, 2, 3`),
  );
  return found.map((count) => ({
    ...count,
    test: count.test as TestCount["test"],
    result: count.result as TestResult | null,
  }));
}
