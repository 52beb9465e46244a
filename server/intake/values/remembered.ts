import type { Cell, GridRow } from "#server/terms/grid";
import { SharedCell } from "../grid/sharedCell";

/** What can be remembered: anything but undefined. */
export type Told = NonNullable<unknown> | null;

/** A reader of one column that remembers what it made of cells with a number: the same cell always says the same. */
export class Remembered<T extends Told> {
  readonly #read: (cell: Cell) => T;
  /** by the number of a cell */
  readonly #made: T[] = [];

  constructor(read: (cell: Cell) => T) {
    this.#read = read;
  }

  of(cell: Cell): T {
    const number = SharedCell.numberOf(cell);
    if (number === -1) return this.#read(cell);
    const known = this.#made[number];
    return known === undefined ? this.#first(cell, number) : known;
  }

  /** The same of the cell that stands in a row at a place. */
  at(row: GridRow, index: number): T {
    const number = row.numberAt(index);
    if (number === -1) return this.#read(row.at(index));
    const known = this.#made[number];
    return known === undefined ? this.#first(row.at(index), number) : known;
  }

  #first(cell: Cell, number: number): T {
    const made = this.#read(cell);
    this.#made[number] = made;
    return made;
  }
}
