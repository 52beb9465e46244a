import { median, medianDeviation } from "#server/statistics/moments";
import { normalScore } from "#server/statistics/student";
import { type Pooled, powersOf, type Rules } from "./parameters";
import type { Series } from "./series";

/** What became of each day: still learning, screened out of the learning days, scored, or scored and far outside. */
export const LEARNING = 0;
export const SCREENED = 1;
export const SCORED = 2;
export const SPIKE = 3;

/** One stream scored. Where `state` says that a day has no score, `score` and `ewma` hold 0 and mean nothing. */
export interface Scored {
  readonly state: Uint8Array;
  /** exactly standard normal and independent while nothing changes, however short the history */
  readonly score: Float64Array;
  /** the drift chart, before it goes back to zero after a signal */
  readonly ewma: Float64Array;
  /** what the day was expected to be from earlier days alone, and the standard deviation of that expectation */
  readonly centre: Float64Array;
  readonly spread: Float64Array;
  /** degrees of freedom behind `spread` */
  readonly degrees: Float64Array;
  /** where the drift chart signalled */
  readonly crossings: readonly number[];
  /** days that taught something, and the spread s that they lead to; null before there is one */
  readonly learnt: number;
  readonly unit: number | null;
}

/**
 * Scores one stream of one reference.
 *
 * Each day is compared with what earlier days lead to expect (a Kalman filter over a constant level and a correlated
 * part); the spread is that of earlier surprises and of what was known beforehand, so the surprise is Student's t and is
 * turned into the normal value with the same tail. A day far outside is scored, pulls the clamped chart once, and teaches
 * nothing.
 *
 * Source: recursive residuals, Brown, Durbin & Evans 1975; self-starting charts, Hawkins 1987; moderated spread, Smyth 2004.
 */
export function scoreSeries(series: Series, pooled: Pooled, rules: Rules): Scored {
  const { day, value, mass } = series;
  const { omega, rho, d0, s02, worth } = pooled;
  const { learn, lambda, clamp, edge, spikeAt } = rules;
  const count = day.length;
  const out = {
    state: screened(series, pooled, rules),
    score: new Float64Array(count),
    ewma: new Float64Array(count),
    centre: new Float64Array(count),
    spread: new Float64Array(count),
    degrees: new Float64Array(count),
    crossings: [] as number[],
  };
  const own = (1 - omega) * usualMass(series, learn);
  const powers = powersOf(rho);
  let [m1, m2, p11, p12, p22] = [0, 0, 0, 0, 0];
  let last = 0;
  let known = 0;
  let squares = d0 * s02;
  let z = 0;
  for (let i = 0; i < count; i++) {
    if (out.state[i] === SCREENED) continue;
    const e = own / mass[i]!;
    if (known === 0) {
      [m1, m2, p11, p12, p22] = [value[i]!, 0, omega + e, -omega, omega];
      last = day[i]!;
      known = 1;
      continue;
    }
    const r = powers[Math.min(day[i]! - last, 63)]!;
    const a = r * m2;
    const c12 = r * p12;
    const c22 = r * r * p22 + omega * (1 - r * r);
    const f = p11 + 2 * c12 + c22 + e;
    const surprise = value[i]! - m1 - a;
    const degrees = d0 + worth * (known - 1);
    out.centre[i] = m1 + a;
    if (degrees > 0 && squares > 0) {
      const spread = Math.sqrt((f * squares) / degrees);
      out.spread[i] = spread;
      out.degrees[i] = degrees;
      if (i >= learn) {
        const q = normalScore(surprise / spread, degrees);
        out.score[i] = q;
        z += lambda * (Math.max(-clamp, Math.min(clamp, q)) - z);
        out.ewma[i] = z;
        out.state[i] = SCORED;
        if (z > edge || z < -edge) {
          out.crossings.push(i);
          z = 0;
        }
        if (q > spikeAt || q < -spikeAt) {
          out.state[i] = SPIKE;
          continue;
        }
      }
    }
    const g1 = p11 + c12;
    const g2 = c12 + c22;
    const k1 = g1 / f;
    const k2 = g2 / f;
    m1 += k1 * surprise;
    m2 = a + k2 * surprise;
    p11 -= k1 * g1;
    p12 = c12 - k1 * g2;
    p22 = c22 - k2 * g2;
    squares += (worth * surprise * surprise) / f;
    known++;
    last = day[i]!;
  }
  const degrees = d0 + worth * (known - 1);
  return { ...out, learnt: known, unit: degrees > 0 && squares > 0 ? Math.sqrt(squares / degrees) : null };
}

/** The mass that counts as one: the middle one of the learning days, so that later days do not change earlier scores. */
export function usualMass({ mass }: Series, learn: number): number {
  return median(mass.subarray(0, Math.max(1, learn))) ?? 1;
}

/**
 * Learning days so far from their own middle that they would teach nonsense, such as a tenfold typing error.
 *
 * The limit is that of a spike: an honest learning time loses a day about as rarely as an honest stream asks a question.
 */
function screened(series: Series, pooled: Pooled, rules: Rules): Uint8Array {
  const state = new Uint8Array(series.day.length);
  if (rules.learn < 5 || !Number.isFinite(rules.spikeAt)) return state;
  const range = screeningRange(series, pooled, rules);
  if (range === null) return state;
  for (let i = 0; i < state.length && i < rules.learn; i++) {
    if (Math.abs(series.value[i]! - range.centre) > range.half(series.mass[i]!)) state[i] = SCREENED;
  }
  return state;
}

/**
 * What learning days are held against: their middle, and how far a day of some mass may be from it.
 *
 * The yardstick is the median deviation × 1.4826 or what other streams lead to expect, whichever is wider. Null where
 * there is no yardstick.
 */
export function screeningRange(
  series: Series,
  { omega, s02 }: Pooled,
  { learn, spikeAt }: Rules,
): { centre: number; half: (mass: number) => number } | null {
  const values = series.value.subarray(0, learn);
  const centre = median(values);
  const yardstick = Math.max(1.4826 * (medianDeviation(values) ?? 0), Math.sqrt(s02));
  if (centre === null || yardstick === 0) return null;
  const own = (1 - omega) * usualMass(series, learn);
  return { centre, half: (mass) => spikeAt * yardstick * Math.sqrt(omega + own / mass) };
}
