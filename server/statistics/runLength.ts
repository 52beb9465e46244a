import { cusumChain } from "./cusumChain";
import { type EwmaDesign, ewmaChain, ewmaSpread } from "./ewmaChain";
import { normalAbove, normalQuantile } from "./normal";
import { begunCalm, meanRun, type RunChain, runQuantile, survival } from "./runChain";

/**
 * A two-sided chart of independent standard normal scores.
 *
 * - ewma: signals outside ±limit × sqrt(lambda / (2 - lambda)); fixed limits, begun at zero; scores kept within ±clamp.
 * - cusum: two sums max(0, s ± x - allowance), signalling above `limit`.
 * - individuals: signals outside ±limit.
 */
export type WatchChart =
  | ({ readonly chart: "ewma" } & EwmaDesign)
  | { readonly chart: "cusum"; readonly allowance: number }
  | { readonly chart: "individuals" };

/** Points until a signal, the signalling point included. */
export interface RunLength {
  readonly mean: number;
  /** number of points by which a share of runs has signalled, in the order of the shares asked for */
  readonly quantiles: readonly { readonly share: number; readonly points: number }[];
}

/** "zero": the change comes with the chart's first point. "calm": it comes after a long calm without a signal. */
export type Begun = "zero" | "calm";

/** Mean run length. Source of the ways: Brook & Evans 1972, Lucas & Crosier 1982, Crowder 1987. */
export function meanRunLength(chart: WatchChart, limit: number, shift: number, begun: Begun = "zero"): number {
  if (chart.chart === "individuals") return 1 / beyond(limit, shift);
  if (chart.chart === "ewma") return meanRun(begunChain(chart, limit, shift, begun));
  // exact for two sums that start at zero together (Kemp 1961)
  const up = meanRun(cusumChain(chart.allowance, limit, shift));
  const down = meanRun(cusumChain(chart.allowance, limit, -shift));
  return 1 / (1 / up + 1 / down);
}

/** Chance that no signal has come after so many points. */
export function stillQuiet(
  chart: WatchChart,
  limit: number,
  shift: number,
  begun: Begun = "zero",
): (points: number) => number {
  if (chart.chart === "individuals") {
    const quiet = 1 - beyond(limit, shift);
    return (points) => quiet ** points;
  }
  if (chart.chart === "ewma") return survival(begunChain(chart, limit, shift, begun));
  // the two sums are taken as independent: they share the scores but cannot both be high; within 1 % of simulation
  const up = survival(cusumChain(chart.allowance, limit, shift));
  const down = survival(cusumChain(chart.allowance, limit, -shift));
  return (points) => up(points) * down(points);
}

/**
 * Mean and quantiles of the run length of a chart with a given limit, when the scores' mean has moved by `shift`.
 *
 * runLength({ chart: "individuals" }, 3, 0).mean // 1 / 0.0027 = 370.4
 */
export function runLength(
  chart: WatchChart,
  limit: number,
  shift: number,
  shares: readonly number[] = [0.05, 0.25, 0.5, 0.75, 0.95],
  begun: Begun = "zero",
): RunLength {
  const quiet = stillQuiet(chart, limit, shift, begun);
  return {
    mean: meanRunLength(chart, limit, shift, begun),
    quantiles: shares.map((share) => ({ share, points: runQuantile(quiet, share) })),
  };
}

/**
 * The limit that gives a mean run length when nothing has changed.
 *
 * Bisected on the logarithm of the mean, which is close to a parabola in the limit, with secant steps in between.
 */
export function limitFor(chart: WatchChart, mean: number): number {
  if (!(mean > 1)) throw new Error(`a run lasts more than one point on average, not ${mean}`);
  if (chart.chart === "individuals") return -normalQuantile(1 / mean / 2);
  const gap = (limit: number) => Math.log(meanRunLength(chart, limit, 0)) - Math.log(mean);
  let low = 0.05;
  let high = chart.chart === "cusum" ? 4 : highestLimit(chart, 3);
  while (gap(high) < 0) {
    low = high;
    high = chart.chart === "cusum" ? high * 2 : highestLimit(chart, high + 1.5);
    if (high <= low) throw new Error(`no limit reaches a mean of ${mean} with scores kept within ${chart.chart}`);
  }
  return root(gap, low, high);
}

/** With clamped scores the EWMA stays inside the clamp, so a limit at or beyond it would never be met. */
function highestLimit(design: EwmaDesign, wanted: number): number {
  return design.clamp === null ? wanted : Math.min(wanted, (design.clamp / ewmaSpread(design.lambda)) * 0.999);
}

/** Where an increasing function crosses zero: false position with halved weights, which keeps its bracket. */
function root(of: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  let [below, above] = [of(low), of(high)];
  let side = 0;
  for (let round = 0; round < 60 && high - low > 1e-10; round++) {
    const x = (low * above - high * below) / (above - below);
    const value = of(x);
    if (Math.abs(value) < 1e-11) return x;
    if (value < 0) {
      [low, below] = [x, value];
      if (side === -1) above /= 2;
      side = -1;
    } else {
      [high, above] = [x, value];
      if (side === 1) below /= 2;
      side = 1;
    }
  }
  return (low + high) / 2;
}

function begunChain(design: EwmaDesign, limit: number, shift: number, begun: Begun): RunChain {
  const edge = limit * ewmaSpread(design.lambda);
  if (design.clamp !== null && edge >= design.clamp)
    throw new Error(`scores kept within ${design.clamp} never pass ${edge}`);
  const chain = ewmaChain(design, edge, shift);
  return begun === "zero" ? chain : begunCalm(chain, ewmaChain(design, edge, 0));
}

function beyond(limit: number, shift: number): number {
  return normalAbove(limit - shift) + normalAbove(limit + shift);
}
