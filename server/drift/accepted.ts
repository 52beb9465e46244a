import { ewmaSpread } from "#server/statistics/ewmaChain";
import { limitFor } from "#server/statistics/runLength";
import { CLAMP, LAMBDA } from "./parameters";

/** How the officer means a number of false alarms a month: on average, or not more than one in 95 % of months. */
export type Reading = "on-average" | "at-most-one-in-95-percent";

/** The part of the accepted number given to the drift charts; the rest is for days asked about one by one. */
export const DRIFT_SHARE = 0.8;

/** What follows from the false alarms accepted over a whole programme. */
export interface Limits {
  /** false alarms a month that are expected, of both kinds */
  readonly expected: number;
  readonly pointsPerMonth: number;
  /** points between two false drift signals, on average over the programme */
  readonly meanPoints: number;
  /** limit in standard deviations of the chart, and on the chart's own scale */
  readonly limit: number;
  readonly edge: number;
  /** chance, for one honest day, of being asked about */
  readonly spikeChance: number;
}

/**
 * Limits for a programme that brings so many points a month over all its streams.
 *
 * False alarms add up over streams, however these hang together, so a chart may signal falsely once in
 * points / (accepted × share) points. `accepted` is 1 by default: a month without any and a month with one are then
 * equally likely (37 % each).
 *
 * driftLimits(624).meanPoints // 624 / (1 × 0.8) = 780, limit 2.960
 */
export function driftLimits(pointsPerMonth: number, accepted = 1, reading: Reading = "on-average"): Limits {
  if (!(accepted > 0)) throw new Error(`false alarms accepted are more than none, not ${accepted}`);
  const expected = reading === "on-average" ? accepted : accepted * mostWithOneIn95();
  const meanPoints = threeDigits(Math.max(20, pointsPerMonth / (expected * DRIFT_SHARE)));
  const limit = keptLimit(meanPoints);
  return {
    expected,
    pointsPerMonth,
    meanPoints,
    limit,
    edge: limit * ewmaSpread(LAMBDA),
    spikeChance: Math.min(0.01, (expected * (1 - DRIFT_SHARE)) / Math.max(1, pointsPerMonth)),
  };
}

/**
 * The number of false alarms a month that leaves at most one in 95 % of months: exp(-B)(1 + B) = 0.95, B = 0.35536.
 */
export function mostWithOneIn95(): number {
  let [low, high] = [0, 1];
  for (let round = 0; round < 60; round++) {
    const middle = (low + high) / 2;
    if (Math.exp(-middle) * (1 + middle) > 0.95) low = middle;
    else high = middle;
  }
  return low;
}

/** Points a month to plan with: the middle of the last three months, as months differ and the limit should not. */
export function plannedPoints(lastMonths: readonly number[]): number {
  const last = lastMonths.slice(-3).sort((a, b) => a - b);
  if (last.length === 0) return 0;
  return last.length === 2 ? (last[0]! + last[1]!) / 2 : last[Math.floor(last.length / 2)]!;
}

const kept = new Map<number, number>();

/** The same answer as working it out anew; programmes ask for the same few limits month after month. */
function keptLimit(meanPoints: number): number {
  const before = kept.get(meanPoints);
  if (before !== undefined) return before;
  const limit = limitFor({ chart: "ewma", lambda: LAMBDA, clamp: CLAMP }, meanPoints);
  kept.set(meanPoints, limit);
  return limit;
}

function threeDigits(value: number): number {
  return Number(value.toPrecision(3));
}
