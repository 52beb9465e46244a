import { dayNumber, plusMonths } from "#server/terms/days";
import type { StreamName } from "#server/terms/signal";
import { CLAMP, LAMBDA, LEARN, type PooledFrom, type Rules } from "./parameters";
import { pooledParameters } from "./pool";
import { type Life, within } from "./reference";
import { SCORED, scoreSeries } from "./score";
import { cut, placeOf, type Series } from "./series";

/** One site's stream of a method and measure, with what was declared and found out about it. */
export interface ProgrammeStream {
  readonly name: StreamName;
  readonly series: Series;
  readonly life: Life;
}

/** What the streams of one method and measure had in common when a quarter began. */
export interface Pool extends Pick<StreamName, "method" | "measure"> {
  readonly pooled: PooledFrom;
  /** their scores of the days before, for the limit of single days */
  readonly scores: Float64Array;
}

/** A day this far outside teaches nothing while the limit itself is being found. */
const FAR_OUTSIDE = 9;

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
    pools.push({ method, measure, pooled, scores: scoresOf(past, pooled) });
  }
  return pools;
}

const ONLY_SCORES: Rules = {
  learn: LEARN,
  lambda: LAMBDA,
  clamp: CLAMP,
  edge: Number.POSITIVE_INFINITY,
  spikeAt: FAR_OUTSIDE,
};

function scoresOf(past: readonly Series[], pooled: PooledFrom): Float64Array {
  const parts = past.map((series) => {
    const { score, state } = scoreSeries(series, pooled, ONLY_SCORES);
    return score.filter((_, i) => state[i]! >= SCORED);
  });
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
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
