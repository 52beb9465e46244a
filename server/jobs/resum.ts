import { batchesOn, type KnownBatch } from "#db/queries/batches";
import type { Changes } from "#db/queries/recorded";
import { daySumsOf, monthSumsOfSite } from "#db/queries/sums";
import type { Tx } from "#db/store";
import { daySums } from "#server/measures/daySums";
import { monthSums } from "#server/measures/monthSums";
import type { Batch } from "#server/terms/batch";
import { daysOfMonth, monthOf } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import type { DaySum, MonthSum } from "#server/terms/sums";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** A batch that this command changes; null where it withdraws it. */
export type Revised = ReadonlyMap<string, Batch | null>;

/** Some days, and every batch that stands on them: those need not be asked for again. */
export interface KnownDays {
  readonly days: ReadonlySet<string>;
  readonly batches: readonly KnownBatch[];
}

const NO_DAYS: KnownDays = { days: new Set(), batches: [] };

/**
 * Day and month sums of a site that change with some batches: rebuilt from every batch of the days they touch, before
 * and after, and of those only the ones that come out different.
 */
export async function resum(
  tx: Tx,
  site: number,
  days: ReadonlySet<string>,
  revised: Revised,
  facts: readonly Fact[],
  known = NO_DAYS,
): Promise<Pick<Changes, "daySums" | "monthSums">> {
  if (days.size === 0) return {};
  const touched = [...days].sort();
  const others = touched.filter((day) => !known.days.has(day));
  const stored = [
    ...known.batches.filter(({ batch: { day } }) => days.has(day) && known.days.has(day)),
    ...(others.length === 0 ? [] : await batchesOn(tx, site, others, [], EVERYTHING)),
  ];
  const kept = stored.map(({ batch }) => batch).filter(({ id }) => !revised.has(id));
  const changed = [...revised.values()].filter((batch) => batch !== null && days.has(batch.day)) as Batch[];
  const rebuilt = daySums([...kept, ...changed], facts);

  const months = [...new Set(touched.map(monthOf))];
  const ofMonth = new Set(months);
  const from = daysOfMonth(months[0] ?? "").from;
  const to = daysOfMonth(months.at(-1) ?? "").to;
  const before = await daySumsOf(tx, [site], from, to, EVERYTHING);
  const standing = before.filter(({ day }) => !days.has(day));
  const ofMonths = [...standing, ...rebuilt].filter(({ day }) => ofMonth.has(monthOf(day)));
  return {
    daySums: different(
      before.filter(({ day }) => days.has(day)),
      rebuilt,
      dayKey,
      emptyDay,
    ),
    monthSums: different(
      await monthSumsOfSite(tx, site, months, EVERYTHING),
      monthSums(ofMonths),
      monthKey,
      emptyMonth,
    ),
  };
}

function different<T extends DaySum | MonthSum>(
  before: readonly T[],
  after: readonly T[],
  key: (sum: T) => string,
  empty: (sum: T) => T,
): T[] {
  const was = new Map(before.map((sum) => [key(sum), sum]));
  const is = new Set(after.map(key));
  const changed = after.filter((sum) => !same(sum, was.get(key(sum))));
  return [...changed, ...before.filter((sum) => !is.has(key(sum))).map(empty)];
}

function same(a: object, b: object | undefined): boolean {
  if (b === undefined) return false;
  const other: Readonly<Record<string, unknown>> = { ...b };
  return Object.entries(a).every(([name, value]) => Object.is(value, other[name]));
}

const dayKey = (sum: DaySum) => `${sum.day} ${sum.method} ${sum.measure}`;
const monthKey = (sum: MonthSum) => `${sum.month} ${sum.method} ${sum.measure}`;
const emptyDay = (sum: DaySum): DaySum => ({ ...sum, batches: 0, loads: 0, num: 0, den: 0 });
const emptyMonth = (sum: MonthSum): MonthSum => ({
  ...sum,
  days: 0,
  batches: 0,
  loads: 0,
  num: 0,
  den: 0,
  num2: 0,
  den2: 0,
  numDen: 0,
});
