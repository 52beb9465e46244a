/**
 * Sum of numbers in the order given, with the rounding errors carried along (Neumaier's compensated sum).
 *
 * The same numbers in the same order give the same bits; 0 for none, so ask for the count first where that matters.
 *
 * sum([0.1, 0.2, 0.3]) // 0.6, where a plain loop gives 0.6000000000000001
 */
export function sum(values: readonly number[]): number {
  let total = 0;
  let lost = 0;
  for (const value of values) {
    const next = total + value;
    lost += Math.abs(total) >= Math.abs(value) ? total - next + value : value - next + total;
    total = next;
  }
  return total + lost;
}

/** Sum of one number of each item, in the order given. */
export function sumOf<T>(items: readonly T[], value: (item: T) => number): number {
  return sum(items.map(value));
}
