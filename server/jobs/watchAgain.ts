import { commonSeries } from "#server/drift/programmeWide";
import type { Life } from "#server/drift/reference";
import type { Series } from "#server/drift/series";
import { type WatchedBriefly, watchStream } from "#server/drift/watch";
import type { Group, WatchOne } from "#server/drift/watchMonth";
import { monthsBetween, plusMonths } from "#server/terms/days";
import type { CommonOf } from "./together";
import { streamKey } from "./watchOrder";

/** What one stream of one month was watched with, and what came out. */
interface Kept {
  readonly series: Series;
  /** what else it hangs on, as text */
  readonly by: string;
  readonly references: readonly WatchedBriefly[];
}

/** Months from the last of an order that are kept: those that a month's log can still change. */
const KEPT_MONTHS = 6;

let kept = new Map<string, Kept>();
let keptCommon = new Map<string, KeptCommon>();

/** What the streams of a group had in common in a month, and the references that it was found in. */
interface KeptCommon {
  readonly references: readonly WatchedBriefly[];
  readonly common: Series;
}

/**
 * Watches streams, and remembers what came out for the next order: a stream whose days, references, parameters and limits
 * are the same to the last bit is not scored again. So what a month of one site costs hangs on that site. Nothing else can
 * come out, since the days themselves are compared.
 */
export function watchingAgain(to: string): {
  readonly inMonth: (month: string) => WatchOne;
  readonly commonIn: (month: string) => CommonOf;
  /** forgets what this order did not ask for */
  readonly done: () => void;
} {
  const months = new Set(monthsBetween(plusMonths(to, 1 - KEPT_MONTHS), to));
  const used = new Map<string, Kept>();
  const usedCommon = new Map<string, KeptCommon>();
  const inMonth =
    (month: string): WatchOne =>
    ({ name, series, life }, group) => {
      if (!months.has(month)) return briefly(series, life, group);
      const key = `${streamKey(name)} ${month}`;
      const by = lifeAndGroup(life, group);
      const before = kept.get(key);
      const now =
        by !== null && before?.by === by && isSame(before.series, series)
          ? before
          : { series, by: by ?? "", references: briefly(series, life, group) };
      if (by !== null) used.set(key, now);
      return now.references;
    };
  const commonIn =
    (month: string): CommonOf =>
    ({ method, measure }, references) => {
      if (!months.has(month)) return commonSeries(references);
      const key = `${method} ${measure} ${month}`;
      const before = keptCommon.get(key);
      const now =
        before !== undefined && isList(before.references, references)
          ? before
          : { references, common: commonSeries(references) };
      usedCommon.set(key, now);
      return now.common;
    };
  return {
    inMonth,
    commonIn,
    done: () => {
      kept = used;
      keptCommon = usedCommon;
    },
  };
}

/** The same references: those that were not watched anew are the very ones of before. */
function isList(one: readonly WatchedBriefly[], other: readonly WatchedBriefly[]): boolean {
  return one.length === other.length && one.every((reference, i) => reference === other[i]);
}

/** Scores and what follows from them, without what only a chart of days shows. */
function briefly(series: Series, life: Life, { pooled, rules }: Group): WatchedBriefly[] {
  return watchStream(series, life, pooled, rules).map(({ scored: { state, score, learnt, unit }, ...one }) => ({
    ...one,
    scored: { state, score, learnt, unit },
  }));
}

/** Null where days are left out by an answer: that is seldom, and only a function tells which. */
function lifeAndGroup({ references, left }: Life, { pooled, rules }: Group): string | null {
  return left === null ? JSON.stringify([references, pooled, rules]) : null;
}

function isSame(one: Series, other: Series): boolean {
  return isEqual(one.day, other.day) && isEqual(one.value, other.value) && isEqual(one.mass, other.mass);
}

function isEqual(one: ArrayLike<number>, other: ArrayLike<number>): boolean {
  if (one.length !== other.length) return false;
  for (let i = 0; i < one.length; i++) if (!Object.is(one[i], other[i])) return false;
  return true;
}
