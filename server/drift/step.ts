import type { Pooled } from "./parameters";
import { usualMass } from "./screening";
import type { Series } from "./series";
import { whitened, whiteningOf } from "./whiten";

/** A level that steps at a place, fitted by generalised least squares. */
export interface Step {
  /** first day of the new level */
  readonly place: number;
  readonly rss: number;
  readonly before: number;
  readonly effect: number;
  /** one over the variance of the effect, for a spread of one */
  readonly precision: number;
}

/** Fits of a step at any place of a series, and what is left without a step. */
export function stepsOf(
  series: Series,
  { omega, rho }: Pick<Pooled, "omega" | "rho">,
): { readonly rss0: number; readonly at: (place: number) => Step } {
  const count = series.day.length;
  const filter = whiteningOf(series, usualMass(series, count), omega, rho);
  const zero = series.value[0] ?? 0; // squares of differences keep their digits wherever the scale begins
  const y = whitened(
    filter,
    series.value.map((value) => value - zero),
  );
  const c = whitened(filter, new Float64Array(count).fill(1));
  const [cc, cy, yy] = [dot(c, c), dot(c, y), dot(y, y)];
  const rss0 = yy - (cy * cy) / cc;
  return {
    rss0,
    at(place) {
      // the step itself sent through the filter, from its first day on
      let [lasting, xx, xc, xy] = [0, 0, 0, 0];
      for (let i = place; i < count; i++) {
        const expected = filter.carried[i]! * lasting;
        const surprise = 1 - expected;
        const x = surprise * filter.scale[i]!;
        lasting = expected + filter.gain[i]! * surprise;
        xx += x * x;
        xc += x * c[i]!;
        xy += x * y[i]!;
      }
      const precision = xx - (xc * xc) / cc;
      const effect = (xy - (xc * cy) / cc) / precision;
      const rss = rss0 - effect * effect * precision;
      return { place, rss, before: zero + (cy - effect * xc) / cc, effect, precision };
    },
  };
}

/** Standard error of a step among so many days. */
export function stepError({ rss, precision }: Step, days: number): number {
  return Math.sqrt(rss / (days - 2) / precision);
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
