import { BLANK, type Cell, type GridRow, isBlank } from "#server/terms/grid";
import { ColumnTexts, kindOf } from "./columnTexts";

/** Longer texts are remarks, which seldom repeat. */
const LONGEST = 40;
/** Numbers stand in pieces of 64 kB: growing copies nothing, and memory that one reading gave back serves the next. */
const PIECE_BITS = 14;
const PIECE = 2 ** PIECE_BITS;

/**
 * The cells of a text, row by row, each as one whole number: 0 for an empty one, above it the text of its column that it
 * repeats, below it a text of its own. Columns repeat few texts, so most cells take four bytes, and none is made before
 * somebody asks for it.
 */
export class TextCells {
  readonly #columns: ColumnTexts[] = [];
  readonly #alone: string[] = [];
  readonly #pieces: Int32Array[] = [];
  #count = 0;
  /** a cell of the row that is being written begins with a mark, so something stands in it */
  #says = false;
  /** the text of its own that was asked for last: most are asked for several times over */
  #last: Cell = BLANK;
  #lastCode = 0;

  /** Adds what stands in a text from one place to another to the row that is being written. */
  add(text: string, from: number, to: number, column: number): void {
    if (!this.#says && from !== to) this.#says = isMark(text.charCodeAt(from));
    const place = this.#count++;
    if (place >> PIECE_BITS === this.#pieces.length) this.#pieces.push(new Int32Array(PIECE));
    this.#pieces[place >> PIECE_BITS]![place & (PIECE - 1)] = from === to ? 0 : this.#codeOf(text, from, to, column);
  }

  /** The row of the cells added last, so many; null, and they are taken off again, where none of them says anything. */
  row(number: number, width: number): GridRow | null {
    const row = new TextRow(this, number, this.#count - width, width);
    const says = this.#says || !isBlank(row);
    this.#says = false;
    if (says) return row;
    this.#count -= width;
    return null;
  }

  at(place: number, column: number): Cell {
    const code = this.#codeAt(place);
    if (code === 0) return BLANK;
    if (code > 0) return this.#columns[column]!.cell(code - 1);
    if (code === this.#lastCode) return this.#last;
    const text = this.#alone[-code - 1]!;
    this.#lastCode = code;
    this.#last = { text, kind: kindOf(text), value: null };
    return this.#last;
  }

  numberAt(place: number): number {
    const code = this.#codeAt(place);
    return code > 0 ? code - 1 : -1;
  }

  #codeOf(text: string, from: number, to: number, column: number): number {
    if (to - from <= LONGEST) {
      let texts = this.#columns[column];
      if (texts === undefined) {
        texts = new ColumnTexts();
        this.#columns[column] = texts;
      }
      const number = texts.numberOf(text, from, to);
      if (number !== -1) return number + 1;
    }
    return -this.#alone.push(text.slice(from, to));
  }

  #codeAt(place: number): number {
    return this.#pieces[place >> PIECE_BITS]![place & (PIECE - 1)]!;
  }
}

/** A letter, a figure or a sign of ASCII; beyond it may be spaces. */
function isMark(code: number): boolean {
  return code > 32 && code < 127;
}

/** A row whose cells stand in a text's table of numbers. */
class TextRow implements GridRow {
  readonly row: number;
  readonly width: number;
  readonly #table: TextCells;
  readonly #from: number;

  constructor(table: TextCells, row: number, from: number, width: number) {
    this.row = row;
    this.width = width;
    this.#table = table;
    this.#from = from;
  }

  get cells(): readonly Cell[] {
    return Array.from({ length: this.width }, (_, index) => this.at(index));
  }

  at(index: number): Cell {
    return index < this.width ? this.#table.at(this.#from + index, index) : BLANK;
  }

  numberAt(index: number): number {
    return index < this.width ? this.#table.numberAt(this.#from + index) : -1;
  }
}
