import { BLANK, type Cell, type GridRow } from "#server/terms/grid";
import { SharedCell } from "./sharedCell";

/** A row that was put together of cells. */
export class RowOfCells implements GridRow {
  readonly row: number;
  readonly cells: readonly Cell[];

  constructor(row: number, cells: readonly Cell[]) {
    this.row = row;
    this.cells = cells;
  }

  get width(): number {
    return this.cells.length;
  }

  at(index: number): Cell {
    return this.cells[index] ?? BLANK;
  }

  numberAt(index: number): number {
    return SharedCell.numberOf(this.at(index));
  }
}
