import { ewmaSpread } from "#server/statistics/ewmaChain";
import { normalBelow } from "#server/statistics/normal";
import { normalScore } from "#server/statistics/student";
import type { Pooled, Rules } from "./parameters";

/** How soon a change would be found. Days are days with a value. */
export interface Delay {
  /** days by which every second such change is found; null where that takes longer than was looked at */
  readonly median: number | null;
  /** chance of being found within so many days, from day 0 on */
  readonly within: readonly number[];
}

type Chart = Pick<Rules, "lambda" | "clamp" | "edge">;

const CELLS = 121;

/**
 * How soon a lasting change of so many spreads s would be found in a stream that has learnt from `learnt` days.
 *
 * The change fades from the scores as the reference takes it in, and the spread swells with it; both are followed by
 * their expectation, day after day, for days of usual mass without gaps. `learnt` null: the reference is known for good.
 * The chart is a chain of 121 cells whose mean differs from day to day.
 */
export function delayOf(shift: number, learnt: number | null, pooled: Pooled, chart: Chart, days = 260): Delay {
  let cells = calmCells(chart);
  const within = [0];
  for (const mean of expectedScores(shift, learnt, pooled, days)) {
    if (within[within.length - 1]! > 1 - 1e-6) {
      within.push(1);
      continue;
    }
    cells = moved(cells, chart, mean);
    within.push(1 - cells.reduce((sum, chance) => sum + chance, 0));
  }
  const median = within.findIndex((chance) => chance >= 0.5);
  return { median: median < 0 ? null : median, within };
}

/**
 * Days after which every second change of some sizes would be found: "a change of 10 % would be found after about 9 days".
 *
 * `unit` is the stream's spread s on the logarithmic scale; changes are shares, 0.1 for 10 % more.
 */
export function delayTable(
  changes: readonly number[],
  unit: number,
  learnt: number | null,
  pooled: Pooled,
  chart: Chart,
): { readonly change: number; readonly days: number | null }[] {
  return changes.map((change) => ({
    change,
    days: delayOf(Math.log1p(change) / unit, learnt, pooled, chart).median,
  }));
}

/** Expected scores on the days after a step, told in spreads. */
function expectedScores(
  shift: number,
  learnt: number | null,
  { omega, rho, d0, worth }: Pooled,
  days: number,
): number[] {
  const own = 1 - omega;
  let [p11, p12, p22] = learnt === null ? [0, 0, omega] : [1, -omega, omega];
  let [m1, m2] = [0, 0];
  let degrees = learnt === null ? 1e9 : d0 + worth * (Math.max(1, learnt) - 1);
  let squares = degrees;
  const means: number[] = [];
  // the filter itself settles first: a reference known for good needs only its lasting part to
  const settled = learnt === null ? 60 : Math.min(Math.max(1, learnt), 2000);
  for (let day = 1; day < settled + days; day++) {
    const a = rho * m2;
    const c12 = rho * p12;
    const c22 = rho * rho * p22 + omega * (1 - rho * rho);
    const f = p11 + 2 * c12 + c22 + own;
    const [g1, g2] = [p11 + c12, c12 + c22];
    const surprise = day < settled ? 0 : shift - m1 - a;
    m1 += (g1 / f) * surprise;
    m2 = a + (g2 / f) * surprise;
    p11 -= (g1 * g1) / f;
    p12 = c12 - (g1 * g2) / f;
    p22 = c22 - (g2 * g2) / f;
    if (day < settled) continue;
    const standard = surprise / Math.sqrt(f);
    means.push(degrees > 0 ? normalScore(standard / Math.sqrt(squares / degrees), degrees) : 0);
    squares += worth * (1 + standard * standard);
    degrees += worth;
  }
  return means;
}

/** Where the chart stands after a long calm: the normal law that it comes to, within the limits. */
function calmCells({ lambda, edge }: Chart): Float64Array {
  const spread = ewmaSpread(lambda);
  const ends = Array.from({ length: CELLS + 1 }, (_, i) => normalBelow((-edge + (2 * edge * i) / CELLS) / spread));
  const all = ends[CELLS]! - ends[0]!;
  return Float64Array.from({ length: CELLS }, (_, i) => (ends[i + 1]! - ends[i]!) / all);
}

function moved(cells: Float64Array, { lambda, clamp, edge }: Chart, mean: number): Float64Array {
  const width = (2 * edge) / CELLS;
  const out = new Float64Array(CELLS);
  for (let i = 0; i < CELLS; i++) {
    const share = cells[i]!;
    if (share < 1e-12) continue;
    const kept = (1 - lambda) * (-edge + width * (i + 0.5));
    let below = clampedBelow((-edge - kept) / lambda, clamp, mean);
    for (let j = 0; j < CELLS; j++) {
      const upTo = clampedBelow((-edge + width * (j + 1) - kept) / lambda, clamp, mean);
      out[j] = out[j]! + share * (upTo - below);
      below = upTo;
    }
  }
  return out;
}

function clampedBelow(x: number, clamp: number, mean: number): number {
  return x < -clamp ? 0 : x >= clamp ? 1 : tabled(x - mean);
}

const FAR = 8;
const STEPS = 512;
const TABLE = Float64Array.from({ length: 2 * FAR * STEPS + 2 }, (_, i) => normalBelow(i / STEPS - FAR));

/** The normal law read from a table: within 1e-6, far closer than the cells are. */
function tabled(x: number): number {
  if (x <= -FAR) return 0;
  if (x >= FAR) return 1;
  const at = (x + FAR) * STEPS;
  const i = Math.floor(at);
  return TABLE[i]! + (at - i) * (TABLE[i + 1]! - TABLE[i]!);
}
