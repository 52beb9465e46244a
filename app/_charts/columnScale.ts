import type { Figure } from "#server/terms/figure";
import type { Scale } from "./scale";

interface Held {
  readonly figure: Figure;
  /** the figure rests on little: its dot is on the scale, its interval may run off it */
  readonly hollow: boolean;
}

/**
 * The scale that a column of figures shares: every dot, every interval of a figure that rests on enough, every mark and band.
 *
 * A site with three days would otherwise press all others together. Null where nothing is known.
 */
export function columnScale(held: readonly Held[], marks: readonly number[]): Scale | null {
  const ends = held.flatMap(({ figure, hollow }) => {
    if (!figure.known) return [];
    const { value, interval } = figure;
    return hollow || interval === null ? [value] : [value, interval.low, interval.high];
  });
  if (ends.length === 0) return null;
  const [low, high] = [Math.min(...ends, ...marks), Math.max(...ends, ...marks)];
  const margin = high > low ? (high - low) * 0.06 : Math.abs(high) * 0.1 || 1;
  return { low: low - margin, high: high + margin };
}
