/** Fuel of a number of cylinders: what it was at least, most likely and at most. */
export interface Counted {
  readonly low: number;
  readonly best: number;
  readonly high: number;
  /** standard deviation */
  readonly sd: number;
}

/**
 * Fuel used when cylinders were only counted as they were changed, in kg.
 *
 * How full the first and the last one were is not known: n changes of c kg mean more than (n−1)·c and less than (n+1)·c,
 * most likely n·c. The difference of two even chances is a triangle of half width c, so the deviation is c/√6.
 *
 * cylinderCount(4, 13) // 39 … 52 … 65 kg, sd 5.307
 */
export function cylinderCount(changes: number, netKg: number): Counted {
  return {
    low: Math.max(0, changes - 1) * netKg,
    best: changes * netKg,
    high: (changes + 1) * netKg,
    sd: netKg / Math.sqrt(6),
  };
}

/** Deviation of an amount known only to lie between two ends, on the side of one end: that of a triangle. */
export function sideDeviation(best: number, end: number): number {
  return Math.abs(end - best) / Math.sqrt(6);
}
