import type { Fault } from "#server/terms/fault";
import type { RowOnGrid } from "#server/terms/row";
import { kgOf, type Load, loadsOf, pooled, rowNumbers, stepOf } from "./loads";

const FEWEST = 6;
const FEWEST_WEIGHTS = 4;
/** A step of the scale must be finer than this share of a dried weight, else a constant share is only its coarseness. */
const FINE = 0.01;

/**
 * Dried weights that were worked out instead of weighed: nine in ten are the same share of their fresh weights to within
 * half a step of the scale. Loads that are weighed differ by more than that.
 */
export function driedWorkedOut(sheet: string, rows: readonly RowOnGrid[]): Fault[] {
  const loads = loadsOf(rows).filter(({ dried }) => dried.value > 0);
  const meanDried = loads.reduce((sum, { dried }) => sum + dried.value, 0) / loads.length;
  const step = stepOf(loads.map(({ dried }) => dried));
  if (loads.length < FEWEST || step > FINE * meanDried) return [];
  const { share, held } = mostHeld(loads, step);
  const differing = new Set(held.map(({ fresh }) => fresh.exact)).size;
  if (held.length < FEWEST || held.length * 10 < loads.length * 9 || differing < FEWEST_WEIGHTS) return [];
  return [
    {
      code: "dried-worked-out",
      evidence: { loads: held.length, of: loads.length, share },
      sheet,
      rows: rowNumbers(held),
      yieldNow: pooled(held.map(kgOf)),
      yieldThen: null,
      answers: null,
    },
  ];
}

/** The share that most loads agree with: each allows the shares from half a step below its dried weight to half above. */
function mostHeld(loads: readonly Load[], step: number): { share: number; held: readonly Load[] } {
  const bounds = (load: Load) => ({
    low: (load.dried.value - step / 2) / load.fresh.value,
    high: (load.dried.value + step / 2) / load.fresh.value,
  });
  const turns = loads
    .map(bounds)
    .flatMap(({ low, high }) => [
      { at: low, by: 1 },
      { at: high, by: -1 },
    ])
    .sort((a, b) => a.at - b.at || b.by - a.by);
  let depth = 0;
  let most = 0;
  let share = 0;
  for (const [place, { at, by }] of turns.entries()) {
    depth += by;
    if (depth <= most) continue;
    most = depth;
    share = (at + (turns[place + 1]?.at ?? at)) / 2;
  }
  return { share, held: loads.filter((load) => bounds(load).low <= share && share <= bounds(load).high) };
}
