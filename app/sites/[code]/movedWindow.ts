/** What part of the time is shown, in percent of the whole. */
export interface Shown {
  readonly from: number;
  readonly to: number;
}

export type Move = "closer" | "wider" | "earlier" | "later" | "whole";

const NARROWEST = 5;

/**
 * The part shown after a move: half of it, twice of it, or half of it further on, never beyond the ends.
 *
 * movedWindow({ from: 0, to: 100 }, "closer") // 25 to 75
 */
export function movedWindow({ from, to }: Shown, move: Move): Shown {
  if (move === "whole") return { from: 0, to: 100 };
  const width = to - from;
  const middle = (from + to) / 2;
  if (move === "closer") return around(middle, Math.max(width / 2, NARROWEST));
  if (move === "wider") return around(middle, Math.min(width * 2, 100));
  return around(middle + (move === "later" ? width / 2 : -width / 2), width);
}

function around(middle: number, width: number): Shown {
  const from = Math.min(Math.max(0, middle - width / 2), 100 - width);
  return { from, to: from + width };
}
