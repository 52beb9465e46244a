import { and, asc, between, desc, eq, inArray, lte, type SQL, sql } from "drizzle-orm";
import type { Method } from "#server/terms/batch";
import type { DaySum, MonthSum, Summed } from "#server/terms/sums";
import { listed } from "../listed";
import { rowsOf } from "../rowsOf";
import { daySums, monthSums } from "../schema";
import type { Tx } from "../store";

/** Day sums of sites over days (both in), as known at a size of the ledger, in the order of days. Emptied ones are left out. */
export async function daySumsOf(
  tx: Tx,
  sites: readonly number[],
  from: string,
  to: string,
  size: number,
): Promise<DaySum[]> {
  const latest = await tx
    .selectDistinctOn([daySums.site, daySums.day, daySums.method, daySums.measure])
    .from(daySums)
    .where(and(inArray(daySums.site, [...sites]), between(daySums.day, from, to), lte(daySums.ledgerIndex, size)))
    .orderBy(asc(daySums.site), asc(daySums.day), asc(daySums.method), asc(daySums.measure), desc(daySums.ledgerIndex));
  return latest
    .filter(({ batches }) => batches > 0)
    .map(({ ledgerIndex: _when, method, measure, ...sum }) => ({
      ...sum,
      method: method as Method,
      measure: measure as Summed,
    }));
}

/** Month sums of one month, of one site or of all that the person may see. */
export async function monthSumsOf(tx: Tx, month: string, site: number | null, size: number): Promise<MonthSum[]> {
  return monthSumsWhere(
    tx,
    and(eq(monthSums.month, month), site === null ? undefined : eq(monthSums.site, site)),
    size,
  );
}

/** Month sums of a site in some months. */
export async function monthSumsOfSite(tx: Tx, site: number, months: readonly string[], size: number) {
  const inMonths = sql`${monthSums.month} = any(array${listed(months, "text")})`;
  return monthSumsWhere(tx, and(inMonths, eq(monthSums.site, site)), size);
}

async function monthSumsWhere(tx: Tx, which: SQL | undefined, size: number): Promise<MonthSum[]> {
  const latest = await tx
    .selectDistinctOn([monthSums.month, monthSums.site, monthSums.method, monthSums.measure])
    .from(monthSums)
    .where(and(which, lte(monthSums.ledgerIndex, size)))
    .orderBy(
      asc(monthSums.month),
      asc(monthSums.site),
      asc(monthSums.method),
      asc(monthSums.measure),
      desc(monthSums.ledgerIndex),
    );
  return latest
    .filter(({ batches }) => batches > 0)
    .map(({ ledgerIndex: _when, method, measure, ...sum }) => ({
      ...sum,
      method: method as Method,
      measure: measure as Summed,
    }));
}

/** The measures that `month_latest` holds: those by which sites are compared. */
export const COMPARED_SUMS: readonly Summed[] = ["here", "fresh", "dry-yield", "pan-time", "scale"];

/** A month sum as `month_latest` holds it: numbers alone, which are read without a box for each. */
type Held = readonly [
  days: number,
  batches: number,
  loads: number,
  num: number,
  den: number,
  num2: number,
  den2: number,
  numDen: number,
];

/**
 * What sites are compared by in one month: the sums of the measures that this takes, of all sites that the person may see.
 *
 * Where nothing was added since the size of the ledger asked for, one index range answers, whatever came before; else the
 * revisions are gone through.
 */
export async function comparedSums(tx: Tx, month: string, size: number): Promise<MonthSum[]> {
  const latest = rowsOf<{
    site: number;
    method: string;
    sums: Readonly<Partial<Record<Summed, Held>>> | null;
    later: boolean;
  }>(
    await tx.execute(
      sql`select site, method, sums, ledger_index > ${size} as later from month_latest where month = ${month}`,
    ),
  );
  if (latest.some(({ later }) => later))
    return (await monthSumsOf(tx, month, null, size)).filter(({ measure }) => COMPARED_SUMS.includes(measure));
  const found: MonthSum[] = [];
  for (const { site, method, sums } of latest) {
    for (const measure of COMPARED_SUMS) {
      const held = sums?.[measure];
      if (held === undefined) continue;
      const [days, batches, loads, num, den, num2, den2, numDen] = held;
      found.push({
        month,
        site,
        method: method as Method,
        measure,
        days,
        batches,
        loads,
        num,
        den,
        num2,
        den2,
        numDen,
      });
    }
  }
  return found;
}

/** Every day of a site on which anything was ever logged, also those that have been emptied since. */
export async function everyDay(tx: Tx, site: number): Promise<string[]> {
  const found = await tx
    .selectDistinct({ day: daySums.day })
    .from(daySums)
    .where(eq(daySums.site, site))
    .orderBy(asc(daySums.day));
  return found.map(({ day }) => day);
}
