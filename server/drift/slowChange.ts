import { adjustedChances } from "#server/statistics/falseDiscovery";
import { studentBelow, studentQuantile } from "#server/statistics/student";
import type { Pooled } from "./parameters";
import type { Series } from "./series";
import { stepError, stepsOf } from "./step";

/** Share of wrong ones to bear among the streams that are named. */
export const FALSE_SHARE = 0.1;
const FEWEST_DAYS = 8;

/** A quarter against the days of the same reference before it. Effects on the scale of the values. */
export interface SlowChange {
  readonly effect: number;
  readonly low: number;
  readonly high: number;
  /** chance of a difference at least so large, in either direction, if nothing had changed */
  readonly chance: number;
  /** the same after taking into account how many streams were looked at */
  readonly adjusted: number;
  readonly named: boolean;
  readonly days: number;
  readonly daysBefore: number;
}

/**
 * What daily watching cannot see in a large programme: each stream's quarter against its own earlier days.
 *
 * In the order of the streams given; null for a stream with fewer than 8 days on either side. Named are those that keep
 * the expected share of false ones among the named at 10 % (Benjamini & Hochberg 1995).
 */
export function slowChanges(
  streams: readonly { readonly series: Series; readonly pooled: Pick<Pooled, "omega" | "rho"> }[],
  quarterFrom: number,
): (SlowChange | null)[] {
  const compared = streams.map(({ series, pooled }) => quarterAgainstPast(series, pooled, quarterFrom));
  const adjusted = adjustedChances(compared.flatMap((one) => (one === null ? [] : [one.chance])));
  let next = 0;
  return compared.map((one) => {
    if (one === null) return null;
    const chance = adjusted[next++]!;
    return { ...one, adjusted: chance, named: chance <= FALSE_SHARE };
  });
}

/** One stream's quarter against its own earlier days, looked at alone; null with fewer than 8 days on either side. */
export function quarterAgainstPast(
  series: Series,
  pooled: Pick<Pooled, "omega" | "rho">,
  quarterFrom: number,
): Omit<SlowChange, "adjusted" | "named"> | null {
  const count = series.day.length;
  const place = series.day.findIndex((day) => day >= quarterFrom);
  if (place < FEWEST_DAYS || count - place < FEWEST_DAYS) return null;
  const step = stepsOf(series, pooled).at(place);
  const error = stepError(step, count);
  if (!(error > 0)) return null;
  const half = -studentQuantile(0.025, count - 2) * error;
  return {
    effect: step.effect,
    low: step.effect - half,
    high: step.effect + half,
    chance: 2 * studentBelow(-Math.abs(step.effect) / error, count - 2),
    days: count - place,
    daysBefore: place,
  };
}
