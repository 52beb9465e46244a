/**
 * A chart as a chain: functions of its state are held by their values at `size` points.
 *
 * Row i of `step` turns such values into the expectation one point later, counting only runs that have not signalled.
 * `start` turns values into the expectation over the state in which the run begins.
 */
export interface RunChain {
  readonly size: number;
  readonly step: Float64Array;
  readonly start: Float64Array;
}

/** Expected number of points until the signal, the signalling point included. */
export function meanRun(chain: RunChain): number {
  return dot(chain.start, solveFromOne(chain));
}

/** Solves (I - step) x = 1 by elimination with row exchange. */
function solveFromOne({ size, step }: RunChain): Float64Array {
  const rows = Array.from({ length: size }, (_, i) => {
    const row = new Float64Array(size + 1);
    for (let j = 0; j < size; j++) row[j] = -step[i * size + j]!;
    row[i] = row[i]! + 1;
    row[size] = 1;
    return row;
  });
  for (let k = 0; k < size; k++) {
    let best = k;
    for (let i = k + 1; i < size; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[best]![k]!)) best = i;
    const pivot = rows[best]!;
    rows[best] = rows[k]!;
    rows[k] = pivot;
    for (let i = k + 1; i < size; i++) {
      const row = rows[i]!;
      const factor = row[k]! / pivot[k]!;
      if (factor !== 0) for (let j = k + 1; j <= size; j++) row[j] = row[j]! - factor * pivot[j]!;
    }
  }
  const x = new Float64Array(size);
  for (let i = size - 1; i >= 0; i--) {
    const row = rows[i]!;
    let value = row[size]!;
    for (let j = i + 1; j < size; j++) value -= row[j]! * x[j]!;
    x[i] = value / row[i]!;
  }
  return x;
}

/** Chance that a run is longer than 0, 1, 2, … points, asked for one at a time and geometric once it has become so. */
export function survival(chain: RunChain): (points: number) => number {
  const { size, step, start } = chain;
  const known = [1];
  let values = new Float64Array(size).fill(1);
  let ratio = 0;
  let settled = false;
  return (points) => {
    while (!settled && known.length <= points) {
      values = timesStep(step, values, size);
      const before = known[known.length - 1]!;
      const next = Math.max(0, dot(start, values));
      known.push(next);
      const now = next / before;
      settled = next === 0 || (known.length > 20 && Math.abs(now - ratio) < 1e-14 * (1 - now));
      settled ||= known.length > 20_000;
      ratio = next === 0 ? 0 : now;
    }
    const last = known.length - 1;
    return points <= last ? known[points]! : known[last]! * ratio ** (points - last);
  };
}

/** Smallest number of points by which a share of the runs, 0.5 for the median, has signalled. */
export function runQuantile(longerThan: (points: number) => number, share: number): number {
  let high = 1;
  while (longerThan(high) > 1 - share) high *= 2;
  let low = Math.floor(high / 2);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (longerThan(middle) > 1 - share) low = middle;
    else high = middle;
  }
  return high;
}

/**
 * The chain begun in the state of a chart that has long been watching `calm` without a signal.
 *
 * Both chains stand on the same points. 600 points of waiting forget any beginning, for every weight in use.
 */
export function begunCalm(chain: RunChain, calm: RunChain, waited = 600): RunChain {
  const { size, step } = calm;
  let start = Float64Array.from(calm.start);
  for (let point = 0; point < waited; point++) {
    const next = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      const share = start[i]!;
      if (share !== 0) for (let j = 0; j < size; j++) next[j] = next[j]! + share * step[i * size + j]!;
    }
    const left = next.reduce((sum, value) => sum + value, 0);
    start = next.map((value) => value / left);
  }
  return { ...chain, start };
}

function timesStep(step: Float64Array, values: Float64Array, size: number): Float64Array<ArrayBuffer> {
  const out = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += step[i * size + j]! * values[j]!;
    out[i] = sum;
  }
  return out;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
