import type { Cell } from "#server/terms/grid";
import { SharedCell } from "../grid/sharedCell";

/** A reader that remembers what it made of shared cells: in one column the same cell always says the same. */
export function remembered<T>(read: (cell: Cell) => T): (cell: Cell) => T {
  // by the number of a cell; in a turned sheet a column may have two cells of one number
  const cells: Cell[] = [];
  const made: T[] = [];
  return (cell) => {
    const number = SharedCell.numberOf(cell);
    if (number === -1) return read(cell);
    const known = made[number];
    if (known !== undefined && cells[number] === cell) return known;
    const now = read(cell);
    cells[number] = cell;
    made[number] = now;
    return now;
  };
}
