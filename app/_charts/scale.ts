import type { Figure } from "#server/terms/figure";

/** The ends of a scale that several figures share, in the figures' own unit. */
export interface Scale {
  readonly low: number;
  readonly high: number;
}

/** A scale that holds all known figures with their intervals; null where none is known. */
export function sharedScale(figures: readonly Figure[]): Scale | null {
  const ends = figures.flatMap((figure) =>
    figure.known ? [figure.value, figure.interval?.low ?? figure.value, figure.interval?.high ?? figure.value] : [],
  );
  if (ends.length === 0) return null;
  const low = Math.min(...ends);
  const high = Math.max(...ends);
  const margin = high > low ? (high - low) * 0.06 : Math.abs(high) * 0.1 || 1;
  return { low: low - margin, high: high + margin };
}

/** Where a value stands on a scale, from 0 (its low end) to 100. */
export function placeOn(scale: Scale, value: number): number {
  const share = (value - scale.low) / (scale.high - scale.low);
  return Math.min(100, Math.max(0, share * 100));
}
