/** Sums by the index of their column, in numbers that are written over and not made anew with every row. */
export class Sums {
  /** NaN where nothing was added */
  #sums = new Float64Array(16).fill(Number.NaN);

  constructor(before: readonly (number | undefined)[] = []) {
    for (const [index, sum] of before.entries()) if (sum !== undefined) this.add(index, sum);
  }

  add(index: number, by: number): void {
    if (index >= this.#sums.length) this.#widen(index);
    this.#sums[index] = this.at(index) + by;
  }

  /** 0 where nothing was added. */
  at(index: number): number {
    const sum = this.#sums[index] ?? Number.NaN;
    return Number.isNaN(sum) ? 0 : sum;
  }

  clear(): void {
    this.#sums.fill(Number.NaN);
  }

  /** The sums up to the last; undefined where nothing was added. */
  list(): (number | undefined)[] {
    const list = Array.from(this.#sums, (sum) => (Number.isNaN(sum) ? undefined : sum));
    while (list.length > 0 && list[list.length - 1] === undefined) list.pop();
    return list;
  }

  #widen(index: number): void {
    const wider = new Float64Array(index * 2).fill(Number.NaN);
    wider.set(this.#sums);
    this.#sums = wider;
  }
}
