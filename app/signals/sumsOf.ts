import type { PointTold, ReferenceTold } from "#server/terms/signalTold";
import type { Sums } from "../_charts/changeDrawn";

/** Half a spread is forgiven each day, and no day counts for more than three: as the drift chart counts it. */
const FORGIVEN = 0.5;
const MOST = 3;

/**
 * What went beyond the usual by more than half a spread, added up to either side; begun anew with each reference. A view
 * of the same scores: no limit belongs to it, since a second one would spend the false alarms twice.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.
 */
export function sumsOf(points: readonly PointTold[], references: readonly ReferenceTold[]): Sums[] {
  const begins = new Set(references.flatMap(({ from }) => from ?? []));
  const ordered = [...begins].sort();
  let [up, down, reference] = [0, 0, -1];
  return points.flatMap(({ day, score }) => {
    const now = ordered.findLastIndex((from) => from <= day);
    if (now !== reference) [up, down, reference] = [0, 0, now];
    if (score === null) return [];
    const counted = Math.max(-MOST, Math.min(MOST, score));
    up = Math.max(0, up + counted - FORGIVEN);
    down = Math.max(0, down - counted - FORGIVEN);
    return [{ day, up, down }];
  });
}
