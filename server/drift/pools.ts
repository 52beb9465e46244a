import { dayNumber, plusMonths } from "#server/terms/days";
import type { StreamName } from "#server/terms/signal";
import type { PooledFrom } from "./parameters";
import { pooledParameters } from "./pool";
import { type Life, within } from "./reference";
import { cut, placeOf, type Series } from "./series";
import { tailScores } from "./tailScores";

/** One site's stream of a method and measure, with what was declared and found out about it. */
export interface ProgrammeStream {
  readonly name: StreamName;
  readonly series: Series;
  readonly life: Life;
}

/** What the streams of one method and measure had in common when a quarter began. */
export interface Pool extends Pick<StreamName, "method" | "measure"> {
  readonly pooled: PooledFrom;
  /** sizes of their scores of the days before, for the limit of single days (`tailScores`) */
  readonly scores: Float64Array;
}

/**
 * Pooled values and scores of each method and measure, from the days before the quarter that a month belongs to: the
 * three months of a quarter share them.
 */
export function poolsOf(streams: readonly ProgrammeStream[], month: string): Pool[] {
  const quarterFrom = dayNumber(`${quarterOf(month)}-01`);
  const pools: Pool[] = [];
  for (const { name } of streams) {
    const { method, measure } = name;
    if (pools.some((one) => one.method === method && one.measure === measure)) continue;
    const past = streams
      .filter((one) => one.name.method === method && one.name.measure === measure)
      .flatMap(({ series, life }) =>
        life.references.map((reference) => within(before(series, quarterFrom), reference, life.left)),
      );
    const pooled = pooledParameters(past);
    pools.push({ method, measure, pooled, scores: joinedScores(past.map((series) => tailScores(series, pooled))) });
  }
  return pools;
}

function joinedScores(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/**
 * The scores of all methods and measures together. Scores have no unit, and the number of days asked about is promised over
 * all of them; a far tail needs as many as there are. Groups held to defaults have none that could be believed.
 */
export function scoresOfAll(pools: readonly Pool[]): Float64Array {
  return joinedScores(pools.flatMap(({ pooled, scores }) => (pooled.from === "streams" ? [scores] : [])));
}

/** The days of a stream before a day. */
export function before(series: Series, day: number): Series {
  return cut(series, 0, placeOf(series.day, day));
}

/** First month of the quarter that a month belongs to. */
export function quarterOf(month: string): string {
  const number = Number(month.slice(5));
  return plusMonths(month, -((number - 1) % 3));
}
