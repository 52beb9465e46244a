import { powersOf } from "./parameters";
import type { Series } from "./series";

/**
 * Turns days that hang together and differ in mass into independent days of equal spread.
 *
 * The filter is linear, so the values, a constant and a step can each be sent through it, and ordinary least squares on
 * what comes out is generalised least squares on what went in.
 */
export interface Whitening {
  /** share of the lasting part carried to the day from the day before */
  readonly carried: Float64Array;
  readonly gain: Float64Array;
  /** one over the standard deviation of a day's surprise, for a spread of one */
  readonly scale: Float64Array;
}

export function whiteningOf({ day, mass }: Series, usual: number, omega: number, rho: number): Whitening {
  const count = day.length;
  const powers = powersOf(rho);
  const out = {
    carried: new Float64Array(count),
    gain: new Float64Array(count),
    scale: new Float64Array(count),
  };
  let lasting = omega;
  for (let i = 0; i < count; i++) {
    const r = i === 0 ? 0 : powers[Math.min(day[i]! - day[i - 1]!, 63)]!;
    const before = i === 0 ? omega : r * r * lasting + omega * (1 - r * r);
    const f = before + ((1 - omega) * usual) / mass[i]!;
    out.carried[i] = r;
    out.gain[i] = before / f;
    out.scale[i] = 1 / Math.sqrt(f);
    lasting = before * (1 - before / f);
  }
  return out;
}

/** What comes out of the filter when `values` go in. */
export function whitened({ carried, gain, scale }: Whitening, values: ArrayLike<number>): Float64Array {
  const out = new Float64Array(values.length);
  let lasting = 0;
  for (let i = 0; i < values.length; i++) {
    const expected = carried[i]! * lasting;
    const surprise = values[i]! - expected;
    out[i] = surprise * scale[i]!;
    lasting = expected + gain[i]! * surprise;
  }
  return out;
}
