import type { GridRow } from "#server/terms/grid";
import type { Bounds, Unreadable } from "#server/terms/row";
import type { Taker } from "./records";
import { TextCells } from "./textCells";

/** Makes rows of the records of a text, as far as the bounds allow. */
export class RowsOfText implements Taker {
  readonly rows: GridRow[] = [];
  /** why the text cannot be read; null as long as it can */
  refusal: Unreadable | null = null;
  /** the last record, counted from 1 */
  number: number;
  /** records in which nothing stands */
  blanks = 0;

  readonly #bounds: Bounds;
  readonly #cells = new TextCells();
  /** cells of the shortest row so far */
  #fewest = Number.POSITIVE_INFINITY;
  /** where a row ends that is shorter than all before it */
  #cutAt = -1;

  /** `before`: records that stood before the text */
  constructor(bounds: Bounds, before: number) {
    this.#bounds = bounds;
    this.number = before;
  }

  cell(text: string, from: number, to: number, column: number): void {
    if (to - from > this.#bounds.cellCharacters) this.refusal = this.#tooLong(text.slice(from, to));
    if (column >= this.#bounds.columns) return; // its record will be refused
    this.#cells.add(text, from, to, column);
  }

  record(width: number, _quoted: readonly number[], _from: number, to: number): boolean {
    const { columns, rows } = this.#bounds;
    this.number++;
    if (width > columns) this.refusal ??= tooMuch("too-many-columns", this.number, width, columns);
    this.#cutAt = width < this.#fewest && this.rows.length > 1 ? to : -1;
    if (this.refusal === null) this.#keep(width);
    if (this.rows.length > rows) this.refusal = { refused: "too-many-rows", detail: `more than ${rows}` };
    return this.refusal === null;
  }

  /** True when the last record has fewer cells than any row above and ends where the text does: it may lack its end. */
  isCutAt(end: number): boolean {
    return this.#cutAt === end;
  }

  #keep(width: number): void {
    const row = this.#cells.row(this.number, width);
    if (row === null) {
      this.blanks++;
      return;
    }
    this.rows.push(row);
    if (width < this.#fewest) this.#fewest = width;
  }

  #tooLong(cell: string): Unreadable {
    const { columns, cellCharacters } = this.#bounds;
    const marks = marksIn(cell);
    return marks > columns
      ? tooMuch("too-many-columns", this.number + 1, marks + 1, columns)
      : tooMuch("cell-too-long", this.number + 1, cell.length, cellCharacters);
  }
}

/** Separators in a text that is made of little else: a row of nothing but empty cells has no delimiter to be told by. */
function marksIn(text: string): number {
  const mark = [",", ";", "\t", "|"].find((one) => text.endsWith(one)) ?? "";
  let marks = 0;
  for (let at = text.length - 1; mark !== "" && at >= 0 && text[at] === mark; at--) marks++;
  return marks;
}

function tooMuch(refused: Unreadable["refused"], row: number, found: number, allowed: number): Unreadable {
  return { refused, detail: `row ${row}: ${found} > ${allowed}` };
}
