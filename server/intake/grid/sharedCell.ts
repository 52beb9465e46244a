import type { Cell } from "#server/terms/grid";

/** So many different cells of one column are shared; a column of more is one of names. */
export const MOST_SHARED = 4000;

/**
 * A cell that stands in several places. Its number, small and from 0 on, lets a reader find what it made of the cell
 * before; no other cell of its column has the same.
 */
export class SharedCell implements Cell {
  readonly text: string;
  readonly kind: Cell["kind"];
  readonly value: number | null;
  // out of sight, so that a cell is no other for being shared
  readonly #number: number;

  constructor(text: string, kind: Cell["kind"], value: number | null, number: number) {
    this.text = text;
    this.kind = kind;
    this.value = value;
    this.#number = number;
  }

  /** The number of a cell; -1 for one that is not shared. */
  static numberOf(cell: Cell): number {
    return #number in cell ? cell.#number : -1;
  }
}
