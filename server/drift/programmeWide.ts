import { mean, median, standardDeviation } from "#server/statistics/moments";
import { studentQuantile } from "#server/statistics/student";
import type { Pooled } from "./parameters";
import { SCORED, type Scored } from "./score";
import type { Series } from "./series";

/** Fewer streams than this have nothing in common that could be told from chance. */
export const FEWEST_PEERS = 5;

/** One site's stream of a measure and method, scored. */
export interface Peer {
  readonly series: Series;
  readonly scored: Pick<Scored, "state" | "score">;
}

/**
 * What the streams of one measure and method have in common, week by week: season, rain, feed.
 *
 * A stream's week is the sum of its scores over the root of their number; the value of a week is the median over the
 * streams and its mass their number. A week counts when at least five streams have a score in it. Weeks run from Monday
 * and are told by their Sunday. Watched like any stream, it says once what would else be said once for every site.
 */
export function commonSeries(peers: readonly Peer[]): Series {
  const weeks = new Map<number, number[]>();
  for (const { series, scored } of peers) {
    for (const [week, total] of weeklyScores(series, scored)) {
      const values = weeks.get(week);
      if (values === undefined) weeks.set(week, [total]);
      else values.push(total);
    }
  }
  const told = [...weeks].filter(([, values]) => values.length >= FEWEST_PEERS).sort(([a], [b]) => a - b);
  return {
    day: Int32Array.from(told, ([week]) => week),
    value: Float64Array.from(told, ([, values]) => median(values)!),
    mass: Float64Array.from(told, ([, values]) => values.length),
  };
}

function weeklyScores({ day }: Series, { state, score }: Peer["scored"]): [number, number][] {
  const sums = new Map<number, { total: number; count: number }>();
  for (let i = 0; i < day.length; i++) {
    if (state[i]! < SCORED) continue;
    const week = sundayOf(day[i]!);
    const before = sums.get(week) ?? { total: 0, count: 0 };
    sums.set(week, { total: before.total + Math.max(-3, Math.min(3, score[i]!)), count: before.count + 1 });
  }
  return [...sums].map(([week, { total, count }]) => [week, total / Math.sqrt(count)]);
}

/** Day 0, 1970-01-01, is a Thursday. */
function sundayOf(day: number): number {
  return day - ((((day + 3) % 7) + 7) % 7) + 6;
}

/**
 * Parameters of the common stream: weeks are independent, and the median of n standard values has a variance of about
 * π / 2n, which counts as much as eight weeks seen.
 */
export function commonPooled(common: Series): Pooled {
  const usual = median(common.mass.subarray(0, 12)) ?? FEWEST_PEERS;
  return { omega: 0, rho: 0, d0: 8, s02: Math.PI / 2 / usual, worth: 1 };
}

/**
 * How much the streams moved together from a day on: the mean of their own differences, with its interval over streams.
 *
 * Weighted by mass within a stream, each stream counting once. Null with fewer than five streams that have five days
 * before and three since.
 */
export function commonEffect(
  streams: readonly Series[],
  from: number,
  until: number,
): { readonly effect: number; readonly low: number; readonly high: number; readonly streams: number } | null {
  const differences = streams
    .map((series) => difference(series, from, until))
    .filter((one) => one !== null)
    .sort((a, b) => a - b);
  const spread = standardDeviation(differences);
  if (differences.length < FEWEST_PEERS || spread === null) return null;
  const effect = mean(differences);
  const count = differences.length;
  const half = (-studentQuantile(0.025, count - 1) * spread) / Math.sqrt(count);
  return { effect, low: effect - half, high: effect + half, streams: count };
}

function difference({ day, value, mass }: Series, from: number, until: number): number | null {
  let [before, beforeMass, beforeDays, after, afterMass, afterDays] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < day.length && day[i]! <= until; i++) {
    if (day[i]! < from) {
      before += value[i]! * mass[i]!;
      beforeMass += mass[i]!;
      beforeDays++;
    } else {
      after += value[i]! * mass[i]!;
      afterMass += mass[i]!;
      afterDays++;
    }
  }
  return beforeDays < 5 || afterDays < 3 ? null : after / afterMass - before / beforeMass;
}
