import type { Cell } from "#server/terms/grid";
import { SharedCell } from "../grid/sharedCell";

/** A reader that remembers what it made of shared cells: in one column the same cell always says the same. */
export function remembered<T>(read: (cell: Cell) => T): (cell: Cell) => T {
  const seen: ({ readonly cell: Cell; readonly made: T } | undefined)[] = [];
  return (cell) => {
    const number = SharedCell.numberOf(cell);
    if (number === -1) return read(cell);
    const known = seen[number];
    if (known !== undefined && known.cell === cell) return known.made;
    const made = read(cell);
    seen[number] = { cell, made };
    return made;
  };
}
