import { BLANK, type Cell } from "#server/terms/grid";
import { MOST_SHARED, SharedCell } from "../grid/sharedCell";
import { textCell } from "./cell";

/** The cells of the texts that a workbook writes down once for all its places. */
export class SharedTexts {
  readonly #texts: readonly string[];
  /** cells of the texts that were asked for */
  readonly #cells: (Cell | undefined)[] = [];
  #shared = 0;

  constructor(texts: readonly string[]) {
    this.#texts = texts;
  }

  /** The cell of a text; undefined where there is none. Most texts are names that stand in one place: they take no number. */
  at(index: number): Cell | undefined {
    const text = this.#texts[index];
    if (text === undefined) return undefined;
    let cell = this.#cells[index];
    if (cell === undefined) cell = textCell(text);
    else if (cell === BLANK || cell instanceof SharedCell || this.#shared === MOST_SHARED) return cell;
    // even, as those of numbers are odd: a column may have both
    else cell = new SharedCell(text, cell.kind, null, 2 * this.#shared++);
    this.#cells[index] = cell;
    return cell;
  }
}
