import { faultsOf } from "#server/intake/faults/faultsOf";
import type { Fault } from "#server/terms/fault";
import type { Answers, Hints } from "#server/terms/row";
import { readLines } from "../readings";

export const HEADING = "Date | No | In (kg) | Out (kg) | Minutes";

/** A log of loads on one day after the other: [fresh, dried] or [fresh, dried, minutes], each as written. */
export function logOf(...loads: readonly (readonly string[])[]): string[] {
  const line = ([fresh = "", dried = "", minutes = ""]: readonly string[], at: number) =>
    `${1 + (at % 28)}/6/2031 | ${at + 1} | ${fresh} | ${dried} | ${minutes}`;
  return [HEADING, ...loads.map(line)];
}

export function faultsIn(log: readonly string[], hints: Hints = {}): Fault[] {
  const all = { period: "2031-06", ...hints };
  return faultsOf(readLines(all, ...log), all);
}

/** Dry yield of what counts, once the answers of a fault were given. */
export function yieldAfter(log: readonly string[], answers: Answers): number {
  const batches = readLines({ period: "2031-06", answers }, ...log).rows.flatMap(({ fate, batch }) =>
    fate === "counted" && batch?.fresh && batch.dried ? [batch] : [],
  );
  const sum = (which: "fresh" | "dried") => batches.reduce((kg, batch) => kg + (batch[which]?.value ?? 0), 0);
  return sum("dried") / sum("fresh");
}

/** Numbers from 0 to 1 that are the same for the same seed. */
export function chance(seed: number): () => number {
  let state = seed * 2654435761 + 1;
  return () => {
    state = (Math.imul(state ^ (state >>> 15), 2246822519) + 0x9e3779b9) | 0;
    return ((state ^ (state >>> 13)) >>> 0) / 2 ** 32;
  };
}
