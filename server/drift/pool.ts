import { median, medianDeviation } from "#server/statistics/moments";
import { knownBeforehand } from "./moderation";
import { DEFAULTS, type Pooled, type PooledFrom, powersOf } from "./parameters";
import type { Series } from "./series";

export const FEWEST_STREAMS = 6;
export const FEWEST_POINTS = 150;
/** more points tell no more about two numbers: streams beyond them are left out evenly */
const MOST_POINTS = 40_000;
/** a stream says something about its spread from this many days on */
const SHORTEST = 8;
const GRID = { omega: [0, 0.3, 0.5, 0.7, 0.85], rho: [0, 0.15, 0.3, 0.45, 0.6] };
/** rho is rounded up: a little too much costs a day of delay, a little too little breaks the promise */
const RHO_STEP = 0.02;
const BOUNDS = { omega: 0.95, rho: 0.8 };

/**
 * What the streams of one measure and method have in common, from the streams themselves.
 *
 * `omega` and `rho` maximise the likelihood of all streams, each with its own level and spread (a grid first, then closer
 * round the best). `d0` and `s02` match mean and variance of the logarithms of the streams' own variances (Smyth 2004,
 * Statistical Applications in Genetics 3:3), `worth` the fourth moment. Defaults, and said so, with fewer than 6 streams or 150 points.
 */
export function pooledParameters(all: readonly Series[]): PooledFrom {
  const told = all.filter((series) => series.day.length >= SHORTEST).sort(byContent);
  const points = told.reduce((sum, series) => sum + series.day.length, 0);
  const counts = { streams: told.length, points };
  if (told.length < FEWEST_STREAMS || points < FEWEST_POINTS) return { ...DEFAULTS, from: "defaults", ...counts };
  const every = Math.ceil(points / MOST_POINTS);
  const used = told.filter((_, i) => i % every === 0).map(prepared);
  const { omega, rho: likeliest } = mostLikely(used);
  const rho = Math.ceil(likeliest / RHO_STEP - 1e-9) * RHO_STEP;
  return { omega, rho, ...spreadPrior(used, omega, rho), from: "streams", ...counts };
}

interface Prepared {
  readonly gap: Uint8Array;
  readonly value: Float64Array;
  /** usual mass over the day's mass */
  readonly v: Float64Array;
}

/** Days far outside their own stream are left out: one tenfold error would outweigh everything. */
function prepared({ day, value, mass }: Series): Prepared {
  const middle = median(value)!;
  const widest = 8 * 1.4826 * medianDeviation(value)!;
  const usual = median(mass)!;
  const kept = Array.from(day.keys()).filter((i) => {
    const thin = Math.sqrt(Math.max(1, usual / mass[i]!));
    return widest === 0 || Math.abs(value[i]! - middle) <= widest * thin;
  });
  return {
    gap: Uint8Array.from(kept, (i, at) => (at === 0 ? 0 : Math.min(63, day[i]! - day[kept[at - 1]!]!))),
    value: Float64Array.from(kept, (i) => value[i]!),
    v: Float64Array.from(kept, (i) => usual / mass[i]!),
  };
}

function mostLikely(used: readonly Prepared[]): { omega: number; rho: number } {
  let best = { omega: 0, rho: 0, height: Number.NEGATIVE_INFINITY };
  const tried = (omega: number, rho: number) => {
    const height = likelihood(used, omega, rho);
    if (height > best.height) best = { omega, rho, height };
  };
  for (const omega of GRID.omega) for (const rho of GRID.rho) tried(omega, rho);
  for (let step = 0.08; step > 0.004; step /= 2) {
    for (let round = 0, from = -1; round < 6 && from !== best.height; round++) {
      from = best.height;
      const { omega, rho } = best;
      for (const [da, db] of [
        [step, 0],
        [-step, 0],
        [0, step],
        [0, -step],
        [step, -step],
        [-step, step],
      ] as const) {
        tried(inside(omega + da, BOUNDS.omega), inside(rho + db, BOUNDS.rho));
      }
    }
  }
  return best;
}

function inside(value: number, most: number): number {
  return Math.min(most, Math.max(0, value));
}

function likelihood(used: readonly Prepared[], omega: number, rho: number): number {
  const powers = powersOf(rho);
  let total = 0;
  for (const one of used) {
    const { squares, logs } = filtered(one, omega, powers);
    const count = one.value.length - 1;
    if (squares > 0) total -= (logs + count * Math.log(squares)) / 2;
  }
  return total;
}

/** Sum of squared standard surprises and of the logarithms of their variances, for a spread of one. */
function filtered(
  { gap, value, v }: Prepared,
  omega: number,
  powers: Float64Array,
): { squares: number; fourths: number; logs: number } {
  const own = 1 - omega;
  let [m1, m2, p11, p12, p22] = [value[0]!, 0, omega + own * v[0]!, -omega, omega];
  let squares = 0;
  let fourths = 0;
  let logs = 0;
  let product = 1;
  for (let i = 1; i < value.length; i++) {
    const r = powers[gap[i]!]!;
    const a = r * m2;
    const c12 = r * p12;
    const c22 = r * r * p22 + omega * (1 - r * r);
    const f = p11 + 2 * c12 + c22 + own * v[i]!;
    const surprise = value[i]! - m1 - a;
    const [g1, g2] = [p11 + c12, c12 + c22];
    const [k1, k2] = [g1 / f, g2 / f];
    m1 += k1 * surprise;
    m2 = a + k2 * surprise;
    p11 -= k1 * g1;
    p12 = c12 - k1 * g2;
    p22 = c22 - k2 * g2;
    const square = (surprise * surprise) / f;
    squares += square;
    fourths += square * square;
    product *= f;
    // one logarithm for many days, taken before the product leaves the range of doubles
    if (product > 1e100 || product < 1e-100 || i === value.length - 1) {
      logs += Math.log(product);
      product = 1;
    }
  }
  return { squares, fourths, logs };
}

function spreadPrior(used: readonly Prepared[], omega: number, rho: number): Pick<Pooled, "d0" | "s02" | "worth"> {
  const powers = powersOf(rho);
  const spreads = used.flatMap((one) => {
    const { squares, fourths } = filtered(one, omega, powers);
    const degrees = one.value.length - 1;
    return squares > 0 ? [{ degrees, variance: squares / degrees, fourths }] : [];
  });
  const worth = worthOf(spreads);
  if (spreads.length < FEWEST_STREAMS) return { d0: 0, s02: 0, worth };
  return { ...knownBeforehand(spreads.map((one) => ({ ...one, degrees: worth * one.degrees }))), worth };
}

/**
 * How many normal days a day is worth to the spread: 1 / (1 + excess / 2), since the variance of a mean square grows with
 * the excess of the fourth moment over that of normal luck. Between 1 and a quarter, which is worth as under t5.
 */
function worthOf(spreads: readonly { degrees: number; variance: number; fourths: number }[]): number {
  let fourths = 0;
  let days = 0;
  for (const one of spreads) {
    // a stream's own variance stands under its fourth powers: for normal luck their mean is 3 n / (n + 2)
    fourths += (one.fourths / one.variance ** 2) * ((one.degrees + 2) / one.degrees);
    days += one.degrees;
  }
  const excess = days === 0 ? 0 : fourths / days - 3;
  return 1 / (1 + Math.min(6, Math.max(0, excess)) / 2);
}

/** An order of what the streams hold, so that the order in which sites are listed leaves no trace. */
function byContent(a: Series, b: Series): number {
  for (let i = 0; i < a.day.length && i < b.day.length; i++) {
    const difference = a.day[i]! - b.day[i]! || a.value[i]! - b.value[i]! || a.mass[i]! - b.mass[i]!;
    if (difference !== 0) return difference;
  }
  return a.day.length - b.day.length;
}
