import { BLANK, type Cell } from "#server/terms/grid";
import type { CellOf } from "./records";
import { MOST_SHARED, SharedCell } from "./sharedCell";

/** Longer texts are remarks, which seldom repeat. */
const LONGEST = 40;
/** So many places of a table are tried for a text; whoever makes texts to fall on one place gains nothing. */
const MOST_TRIES = 16;

/** Makes cells of texts. Columns repeat few texts, so equal cells of a column are one, and their text is cut out once. */
export function textCells(): CellOf<Cell> {
  const columns: ColumnCells[] = [];
  return (text, from, to, column) => {
    if (from === to) return BLANK;
    if (to - from > LONGEST) return plainCell(text.slice(from, to));
    let cells = columns[column];
    if (cells === undefined) {
      cells = new ColumnCells();
      columns[column] = cells;
    }
    return cells.cellOf(text, from, to);
  };
}

/** The cells of one column, found by the characters of their texts. */
class ColumnCells {
  readonly #cells: Cell[] = [];
  readonly #hashes: number[] = [];
  /** by hash: which of the cells, from 1; 0 where none is */
  #places = new Int32Array(16);

  cellOf(text: string, from: number, to: number): Cell {
    let hash = 0;
    for (let at = from; at < to; at++) hash = (Math.imul(hash, 31) + text.charCodeAt(at)) | 0;
    const last = this.#places.length - 1;
    let place = spread(hash) & last;
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      const which = this.#places[place]!;
      if (which === 0) return this.#made(text.slice(from, to), hash, place);
      const cell = this.#cells[which - 1]!;
      const isIt = this.#hashes[which - 1] === hash && cell.text.length === to - from;
      if (isIt && text.startsWith(cell.text, from)) return cell;
      place = (place + 1) & last;
    }
    return plainCell(text.slice(from, to));
  }

  #made(text: string, hash: number, place: number): Cell {
    const count = this.#cells.length;
    if (count === MOST_SHARED) return plainCell(text);
    const cell = new SharedCell(text, kindOf(text), null, count);
    this.#cells.push(cell);
    this.#hashes.push(hash);
    this.#places[place] = count + 1;
    if (count * 2 > this.#places.length) this.#widen();
    return cell;
  }

  #widen(): void {
    const places = new Int32Array(this.#places.length * 4);
    const last = places.length - 1;
    for (const [at, hash] of this.#hashes.entries()) {
      let place = spread(hash) & last;
      while (places[place] !== 0) place = (place + 1) & last;
      places[place] = at + 1;
    }
    this.#places = places;
  }
}

function spread(hash: number): number {
  return hash ^ (hash >>> 15);
}

function plainCell(text: string): Cell {
  return { text, kind: kindOf(text), value: null };
}

function kindOf(text: string): "blank" | "text" {
  const first = text.charCodeAt(0);
  return (first <= 32 || first >= 0x80) && text.trim() === "" ? "blank" : "text";
}
