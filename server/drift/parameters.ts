/**
 * What the streams of one measure and method have in common.
 *
 * A day's value is y = mu + a + e: a common level, a day's own luck that lasts (variance omega s², correlation
 * rho ^ days), and luck that shrinks with the day's mass (variance (1 - omega) v s², v = usual mass / mass). So the
 * variance of a day has a floor that no mass removes. `d0` and `s02` are what is known beforehand of a stream's s²:
 * as if `d0` squared deviations with mean `s02` had been seen; d0 = 0 when nothing is known. `worth` is how many normal
 * days a day is worth to the spread: 1 for normal luck, less where tails are heavy and squares therefore uncertain.
 */
export interface Pooled {
  readonly omega: number;
  readonly rho: number;
  readonly d0: number;
  readonly s02: number;
  readonly worth: number;
}

/** Pooled parameters with where they come from: `defaults` while there are too few streams or points to tell. */
export interface PooledFrom extends Pooled {
  readonly from: "streams" | "defaults";
  readonly streams: number;
  readonly points: number;
}

/**
 * Where nothing is known: on the careful side, since too little correlation means too many false alarms. With a true
 * 0.6 and 0.3 these keep what is promised, heavy tails and short histories included (simulated).
 */
export const DEFAULTS: Pooled = { omega: 0.6, rho: 0.4, d0: 0, s02: 0, worth: 1 };

/** How a stream is watched. The chart is fixed; the two limits come from the false alarms accepted. */
export interface Rules {
  /** usable days before the first signal may come */
  readonly learn: number;
  readonly lambda: number;
  /** scores count for no more than this in the drift chart */
  readonly clamp: number;
  /** the drift chart signals beyond ± this */
  readonly edge: number;
  /** a day whose score lies beyond ± this is a question about the record */
  readonly spikeAt: number;
}

/** Worth of a day under t5, the heaviest tails that are reckoned with. */
export const LEAST_WORTH = 1 / 4;

export const LEARN = 12;
export const LAMBDA = 0.1;
export const CLAMP = 3;

/** Powers of rho for gaps in days; longer gaps forget as the last one does. */
export function powersOf(rho: number): Float64Array {
  // the streams of a group ask for the same one after another
  if (lastPowers?.rho !== rho) lastPowers = { rho, powers: Float64Array.from({ length: 64 }, (_, gap) => rho ** gap) };
  return lastPowers.powers;
}

let lastPowers: { readonly rho: number; readonly powers: Float64Array } | null = null;
