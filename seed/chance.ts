/** Numbers that look like chance and are the same on every machine. */
export interface Chance {
  /** from 0 up to but not including 1 */
  readonly uniform: () => number;
  readonly normal: () => number;
  /** true in this share of cases */
  readonly happens: (share: number) => boolean;
  /** a whole number, both ends in */
  readonly whole: (from: number, to: number) => number;
  readonly pick: <T>(of: readonly [T, ...T[]]) => T;
}

/**
 * Chance for one purpose: another name is another run of numbers, so that a change in one place leaves the others as
 * they are. The generator is mulberry32 after a multiplicative hash of the name.
 */
export function chanceOf(seed: number, name: string): Chance {
  let state = Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) >>> 0;
  for (let at = 0; at < name.length; at++) state = Math.imul(state ^ name.charCodeAt(at), 0x01000193) >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return {
    uniform,
    normal,
    happens: (share) => uniform() < share,
    whole: (from, to) => from + Math.floor(uniform() * (to - from + 1)),
    pick: (of) => of[Math.floor(uniform() * of.length)] ?? of[0],
  };
}
