import { gaussLegendre } from "./gaussLegendre";
import { normalBelow, normalDensity } from "./normal";
import type { RunChain } from "./runChain";

const RULE = gaussLegendre(12);

/**
 * The upper CUSUM s' = max(0, s + x - allowance), signalling above `limit`, as a chain begun at zero.
 *
 * Point 0 is the state zero itself; the others are Gauss–Legendre points of panels at most 3 wide.
 */
export function cusumChain(allowance: number, limit: number, shift: number): RunChain {
  const panels = Math.ceil(limit / 3);
  const half = limit / panels / 2;
  const order = RULE.at.length;
  const size = 1 + panels * order;
  const at = new Float64Array(size);
  const weight = new Float64Array(size);
  for (let panel = 0; panel < panels; panel++) {
    for (let i = 0; i < order; i++) {
      at[1 + panel * order + i] = half * (2 * panel + 1 + RULE.at[i]!);
      weight[1 + panel * order + i] = half * RULE.weight[i]!;
    }
  }
  const step = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    const middle = at[i]! - allowance + shift;
    step[i * size] = normalBelow(-middle);
    for (let j = 1; j < size; j++) step[i * size + j] = weight[j]! * normalDensity(at[j]! - middle);
  }
  const start = new Float64Array(size);
  start[0] = 1;
  return { size, step, start };
}
