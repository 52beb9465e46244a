import { normalScore } from "#server/statistics/student";
import { type Pooled, powersOf, type Rules } from "./parameters";
import { screenedOut, usualMass } from "./screening";
import { joined, type Series } from "./series";

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

/** What scoring carries from one day to the next. Plain numbers and lists: it may be stored as it is. */
export interface Carried {
  /** the days so far while they are learning days, which are judged together; null from then on */
  readonly learning: {
    readonly day: readonly number[];
    readonly value: readonly number[];
    readonly mass: readonly number[];
  } | null;
  readonly days: number;
  readonly own: number;
  readonly level: readonly [number, number];
  readonly doubt: readonly [number, number, number];
  readonly last: number;
  readonly learnt: number;
  readonly squares: number;
  readonly chart: number;
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
  return scoreFrom(null, series, pooled, rules).scored;
}

/**
 * The same from where it stopped: `kept` is what an earlier call carried (null at a reference's first day), `days` are those
 * after it. Piece by piece gives, bit for bit, what the whole would give, at the cost of the new days alone.
 *
 * `scored` begins with place `from` of the reference: learning days are judged together, so while they are not complete they
 * all come again. `carried` holds for the pooled values and rules it was made with, and for days that come after; a late
 * day before them, or other values, is scored from the reference's first day.
 */
export function scoreFrom(
  kept: Carried | null,
  days: Series,
  pooled: Pooled,
  rules: Rules,
): { readonly from: number; readonly scored: Scored; readonly carried: Carried } {
  const { omega, rho, d0, s02, worth } = pooled;
  const { learn, lambda, clamp, edge, spikeAt } = rules;
  const running = kept !== null && kept.learning === null ? kept : null;
  const series = kept?.learning ? joined(kept.learning, days) : days;
  const { day, value, mass } = series;
  const count = day.length;
  const from = running?.days ?? 0;
  const out = {
    state: new Uint8Array(count),
    score: new Float64Array(count),
    ewma: new Float64Array(count),
    centre: new Float64Array(count),
    spread: new Float64Array(count),
    degrees: new Float64Array(count),
    crossings: [] as number[],
  };
  if (running === null) {
    const isOut = screenedOut(series, pooled, rules);
    for (let i = 0; i < count && i < learn; i++) if (isOut(i)) out.state[i] = SCREENED;
  }
  const own = running?.own ?? (1 - omega) * usualMass(series, learn);
  const powers = powersOf(rho);
  let [m1, m2] = running?.level ?? [0, 0];
  let [p11, p12, p22] = running?.doubt ?? [0, 0, 0];
  let last = running?.last ?? 0;
  let known = running?.learnt ?? 0;
  let squares = running?.squares ?? d0 * s02;
  let z = running?.chart ?? 0;
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
      if (from + i >= learn) {
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
  const complete = from + count >= Math.max(1, learn);
  return {
    from,
    scored: { ...out, learnt: known, unit: degrees > 0 && squares > 0 ? Math.sqrt(squares / degrees) : null },
    carried: {
      learning: complete ? null : { day: [...day], value: [...value], mass: [...mass] },
      days: from + count,
      own,
      level: [m1, m2],
      doubt: [p11, p12, p22],
      last,
      learnt: known,
      squares,
      chart: z,
    },
  };
}
