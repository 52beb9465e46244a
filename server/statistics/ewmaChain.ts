import { addInterpolation, gaussLegendre } from "./gaussLegendre";
import { normalAbove, normalBelow, normalDensity } from "./normal";
import type { RunChain } from "./runChain";

/** An EWMA of standard normal scores: z' = (1 - lambda) z + lambda x, with x kept within ±clamp; null for no clamp. */
export interface EwmaDesign {
  readonly lambda: number;
  readonly clamp: number | null;
}

const RULE = gaussLegendre(10);
const ORDER = RULE.at.length;
/** panels no wider than this many lambda: the density is then integrated to more than ten digits */
const WIDEST = 2.5;

/** Standard deviation that the EWMA of independent standard scores comes to. */
export function ewmaSpread(lambda: number): number {
  return Math.sqrt(lambda / (2 - lambda));
}

/**
 * The EWMA chart between -edge and edge as a chain, for scores whose mean has moved by `shift`.
 *
 * The integral equation of the run length (Crowder 1987, Technometrics 29:401) is solved at Gauss–Legendre points, panel
 * by panel. A clamp puts a part of the chance on two single landing places; the expected run then jumps where these
 * places cross the limit, and where they cross an earlier jump, so panels end there.
 */
export function ewmaChain(design: EwmaDesign, edge: number, shift: number): RunChain {
  const ends = panelEnds(design, edge);
  const size = (ends.length - 1) * ORDER;
  const step = new Float64Array(size * size);
  for (let panel = 0; panel + 1 < ends.length; panel++) {
    const half = (ends[panel + 1]! - ends[panel]!) / 2;
    for (let i = 0; i < ORDER; i++) {
      const z = ends[panel]! + half * (1 + RULE.at[i]!);
      fillRow(step, (panel * ORDER + i) * size, ends, z, design, shift);
    }
  }
  const start = new Float64Array(size);
  addValueAt(start, 0, ends, 0, 1);
  return { size, step, start };
}

/** Ends of the panels, ascending from -edge to edge, the same for every shift. */
function panelEnds({ lambda, clamp }: EwmaDesign, edge: number): number[] {
  const jumps = [-edge, edge];
  if (clamp !== null) {
    for (let at = (edge - lambda * clamp) / (1 - lambda); at > -edge; at = (at - lambda * clamp) / (1 - lambda)) {
      if (at < edge) jumps.push(at, -at);
      if (jumps.length > 80) break; // a jump is smaller by the chance of a clamped score each time: long vanished
    }
  }
  jumps.sort((a, b) => a - b);
  const ends = [jumps[0]!];
  for (const to of jumps.slice(1)) {
    const from = ends[ends.length - 1]!;
    if (to - from < 1e-9 * edge) continue;
    const pieces = Math.ceil((to - from) / (WIDEST * lambda));
    for (let piece = 1; piece <= pieces; piece++) ends.push(from + ((to - from) * piece) / pieces);
  }
  ends[ends.length - 1] = edge;
  return ends;
}

function fillRow(
  step: Float64Array,
  offset: number,
  ends: readonly number[],
  z: number,
  { lambda, clamp }: EwmaDesign,
  shift: number,
): void {
  const kept = (1 - lambda) * z;
  const middle = kept + lambda * shift;
  const lowest = clamp === null ? middle - 9 * lambda : kept - lambda * clamp;
  const highest = clamp === null ? middle + 9 * lambda : kept + lambda * clamp;
  for (let panel = 0; panel + 1 < ends.length; panel++) {
    const [a, b] = [ends[panel]!, ends[panel + 1]!];
    const from = Math.max(a, lowest);
    const to = Math.min(b, highest);
    if (from >= to) continue;
    const half = (to - from) / 2;
    const whole = from === a && to === b;
    for (let i = 0; i < ORDER; i++) {
      const y = from + half * (1 + RULE.at[i]!);
      const chance = (RULE.weight[i]! * half * normalDensity((y - middle) / lambda)) / lambda;
      const into = offset + panel * ORDER;
      if (whole) step[into + i] = step[into + i]! + chance;
      else addInterpolation(RULE, (2 * y - a - b) / (b - a), chance, step, into);
    }
  }
  if (clamp === null) return;
  addValueAt(step, offset, ends, highest, normalAbove(clamp - shift));
  addValueAt(step, offset, ends, lowest, normalBelow(-clamp - shift));
}

/** Adds `chance` times the value at `z` to a row; nothing where `z` lies beyond the limits. */
function addValueAt(row: Float64Array, offset: number, ends: readonly number[], z: number, chance: number): void {
  for (let panel = 0; panel + 1 < ends.length; panel++) {
    const [a, b] = [ends[panel]!, ends[panel + 1]!];
    if (z < a || z >= b) continue;
    addInterpolation(RULE, (2 * z - a - b) / (b - a), chance, row, offset + panel * ORDER);
    return;
  }
}
