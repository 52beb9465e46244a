import { ewmaSpread } from "#server/statistics/ewmaChain";
import { limitFor, stillQuiet } from "#server/statistics/runLength";
import { CLAMP, LAMBDA } from "./parameters";

/** How the officer means a number of false alarms a month: on average, or not more than one in 95 % of months. */
export type Reading = "on-average" | "at-most-one-in-95-percent";

/** The parts of the accepted number: for the drift charts, for single days asked about, for the months' records. */
export const DRIFT_SHARE = 0.8;
export const QUESTION_SHARE = 0.15;
export const RECORD_SHARE = 0.05;

/**
 * Limits are solved for runs a twentieth longer than promised: what streams have in common is only estimated, and tails
 * are heavier than normal; single days are asked about for as much less. Simulated programmes of 6 to 200 sites then come out within 15 % of what was promised.
 */
export const CARE = 1.05;

/** One stream's coming month: points planned, and points already scored; below 0 while days of learning are left. */
export interface Planned {
  readonly points: number;
  readonly before: number;
}

/** What follows from the false alarms accepted over a whole programme. */
export interface Limits {
  /** false alarms a month that are expected, of both kinds */
  readonly expected: number;
  readonly pointsPerMonth: number;
  /** the same without points at which a chart that has just begun can hardly signal */
  readonly ripePoints: number;
  /** points between two false drift signals of a chart */
  readonly meanPoints: number;
  /** limit in standard deviations of the chart, and on the chart's own scale */
  readonly limit: number;
  readonly edge: number;
  /** chance, for one honest day, of being asked about */
  readonly spikeChance: number;
}

/**
 * Limits for a programme whose streams bring so many points in the coming month.
 *
 * False alarms add up over streams, however these hang together, so a chart may signal falsely once in
 * points / (accepted × share) points. `accepted` is 1 by default: a month without any and a month with one are then
 * equally likely (37 % each). Streams that have just begun count less: their charts start at zero.
 *
 * driftLimits([{ points: 624, before: 1000 }]).meanPoints // 624 / (1 × 0.8) = 780, limit 2.977
 */
export function driftLimits(streams: readonly Planned[], accepted = 1, reading: Reading = "on-average"): Limits {
  if (!(accepted > 0)) throw new Error(`false alarms accepted are more than none, not ${accepted}`);
  const expected = reading === "on-average" ? accepted : accepted * mostWithOneIn95();
  const pointsPerMonth = streams.reduce((sum, { points }) => sum + points, 0);
  const first = kept(meanFor(pointsPerMonth, expected));
  const ripePoints = streams.reduce((sum, stream) => sum + first.ripe(stream), 0);
  // a young programme is not watched with a hair trigger: its limits are never below those of half its points
  const meanPoints = meanFor(Math.max(ripePoints, pointsPerMonth / 2), expected);
  const { limit } = kept(meanPoints);
  return {
    expected,
    pointsPerMonth,
    ripePoints,
    meanPoints,
    limit,
    edge: limit * ewmaSpread(LAMBDA),
    spikeChance: Math.min(0.01, (expected * QUESTION_SHARE) / Math.max(1, pointsPerMonth)),
  };
}

/** False drift signals to expect from the points that came, under limits with this mean: what a count is held against. */
export function expectedSignals(meanPoints: number, streams: readonly Planned[]): number {
  const { ripe } = kept(meanPoints);
  return streams.reduce((sum, stream) => sum + ripe(stream), 0) / meanPoints;
}

/** Three digits: limits of months that differ by a few points stay the same. Never so near that charts signal weekly. */
function meanFor(points: number, expected: number): number {
  return Number(Math.max(20, points / (expected * DRIFT_SHARE)).toPrecision(3));
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

interface Kept {
  readonly limit: number;
  /** planned points of a stream, each by its chance to signal against that of a chart long begun */
  readonly ripe: (stream: Planned) => number;
}

const known = new Map<number, Kept>();

/** The same answer as working it out anew; programmes ask for the same few limits month after month. */
function kept(meanPoints: number): Kept {
  const before = known.get(meanPoints);
  if (before !== undefined) return before;
  const chart = { chart: "ewma", lambda: LAMBDA, clamp: CLAMP } as const;
  const limit = limitFor(chart, CARE * meanPoints);
  const quiet = stillQuiet(chart, limit, 0);
  // chance to signal at the nth point against that of a chart long begun; by the hundredth it has settled for good
  const chance = (n: number) => 1 - quiet(n) / quiet(n - 1);
  const settled = chance(100);
  const ripeness = Array.from({ length: 101 }, (_, n) => (n === 0 ? 0 : Math.min(1, chance(n) / settled)));
  const summed = ripeness.map((_, n) => ripeness.slice(0, n + 1).reduce((a, b) => a + b, 0));
  const upTo = (n: number) => {
    if (n <= 0) return 0;
    if (n >= 100) return summed[100]! + (n - 100) * ripeness[100]!;
    const whole = Math.floor(n);
    return summed[whole]! + (n - whole) * ripeness[whole + 1]!;
  };
  const one = { limit, ripe: ({ points, before }: Planned) => upTo(before + points) - upTo(before) };
  known.set(meanPoints, one);
  return one;
}
