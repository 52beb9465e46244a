import type { Chance } from "../chance";

const CORRELATION = 0.3;

/** Luck that lasts: normal of spread 1, each day's correlated 0.3 with the day before. */
export function lastingLuck(chance: Chance): () => number {
  let now = chance.normal();
  return () => {
    now = CORRELATION * now + Math.sqrt(1 - CORRELATION ** 2) * chance.normal();
    return now;
  };
}
