import { studentQuantile } from "#server/statistics/student";
import type { Direction } from "#server/terms/signal";
import type { Pooled } from "./parameters";
import type { Series } from "./series";
import { type Step, stepError, stepsOf } from "./step";

/**
 * Critical value of the likelihood ratio for the place of a change: -2 log(1 - sqrt(0.95)).
 *
 * The ratio at the true place is the larger of two independent exponential values (Hansen 2000, Econometrica 68:575), so
 * a chi-square value would promise 95 % and keep 79 to 91 %.
 */
export const SAME_PLACE = -2 * Math.log(1 - Math.sqrt(0.95));

/** Days on either side that a change needs, to be told from a single odd day. */
const FEWEST_BEFORE = 3;
const FEWEST_AFTER = 2;

/** One step in the level of a stream. Places count days of the series; `place` is the first day of the new level. */
export interface ChangePoint {
  readonly place: number;
  /** first and last place that 95 % of such sets would hold */
  readonly from: number;
  readonly to: number;
  /** false when the set holds every place looked at */
  readonly determined: boolean;
  /** n log(RSS without / RSS with the step): how much better a step describes the days */
  readonly ratio: number;
  readonly before: number;
  /** the step and its interval, on the scale of the values */
  readonly effect: number;
  readonly low: number;
  readonly high: number;
}

/**
 * The step that describes a stream best, its date set and size; null for too few days or days without spread.
 *
 * Days count by mass and correlation as the pooled values say. The size is that of the best place, so its interval does
 * not hold the doubt about the place; just after a signal the size reads somewhat large. With a direction, only steps
 * that way are looked at.
 */
export function changePoint(
  series: Series,
  pooled: Pick<Pooled, "omega" | "rho">,
  direction: Direction | null = null,
  level = 0.95,
): ChangePoint | null {
  const count = series.day.length;
  const last = count - FEWEST_AFTER;
  if (last < FEWEST_BEFORE || count < 4) return null;
  const { rss0, at } = stepsOf(series, pooled);
  const left = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
  let best: Step | null = null;
  for (let place = FEWEST_BEFORE; place <= last; place++) {
    const step = at(place);
    if (direction !== null && step.effect > 0 !== (direction === "up")) continue;
    left[place] = step.rss;
    if (best === null || step.rss < best.rss) best = step;
  }
  if (best === null) return null;
  if (!(best.rss > 1e-12 * rss0)) return exactStep(best, rss0, last);
  const least = best.rss;
  const inSet = (place: number) => count * Math.log(left[place]! / least) <= SAME_PLACE;
  let [from, to] = [FEWEST_BEFORE, last];
  while (!inSet(from)) from++;
  while (!inSet(to)) to--;
  const half = -studentQuantile((1 - level) / 2, count - 2) * stepError(best, count);
  return {
    place: best.place,
    from,
    to,
    determined: from > FEWEST_BEFORE || to < last,
    ratio: count * Math.log(rss0 / best.rss),
    before: best.before,
    effect: best.effect,
    low: best.effect - half,
    high: best.effect + half,
  };
}

/** Two levels without any spread leave no doubt; days that never differ show no step. */
function exactStep({ place, effect, before }: Step, rss0: number, last: number): ChangePoint | null {
  if (!(rss0 > 0)) return null;
  return {
    place,
    from: place,
    to: place,
    determined: last > FEWEST_BEFORE,
    ratio: Number.MAX_VALUE,
    before,
    effect,
    low: effect,
    high: effect,
  };
}
