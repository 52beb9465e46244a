import type { GridRow } from "#server/terms/grid";
import type { CellRead } from "#server/terms/row";
import type { TableAtHand } from "./table";

/**
 * What a row says in the columns that are read, as it stands there. Rows of a large log are many and most are looked at
 * by nobody before they are handed over, so it is put together for whoever goes through it.
 */
export class CellsSaid implements Iterable<CellRead> {
  readonly #table: TableAtHand;
  readonly #raw: GridRow;

  constructor(table: TableAtHand, raw: GridRow) {
    this.#table = table;
    this.#raw = raw;
  }

  [Symbol.iterator](): IterableIterator<CellRead> {
    const said: CellRead[] = [];
    for (const column of this.#table.lookedUp) {
      const cell = this.#table.read.said(column, this.#raw);
      if (cell !== null) said.push(cell);
    }
    return said.values();
  }
}
