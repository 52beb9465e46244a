import { BLANK, type Cell } from "#server/terms/grid";

/** So many different cells of one column are shared; a column of more is one of names. */
export const MOST_SHARED = 4000;

/**
 * A cell that stands in several places. Its number, small and from 0 on, lets a reader find what it made of the cell
 * before. Cells of one column have different numbers, with few exceptions.
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

/** Makes cells of texts, by column: columns repeat few texts, most of all the one just above, and equal cells can be one. */
export function sharedCells(): (text: string, column: number) => Cell {
  const columns: Map<string, Cell>[] = [];
  const above: Cell[] = [];
  return (text, column) => {
    if (text === "") return BLANK;
    const last = above[column];
    if (last !== undefined && last.text === text) return last;
    let seen = columns[column];
    if (seen === undefined) {
      seen = new Map();
      columns[column] = seen;
    }
    let cell = seen.get(text);
    if (cell === undefined) {
      const kind = isBlank(text) ? "blank" : "text";
      if (seen.size >= MOST_SHARED) return { text, kind, value: null };
      cell = new SharedCell(text, kind, null, seen.size);
      seen.set(text, cell);
    }
    above[column] = cell;
    return cell;
  };
}

function isBlank(text: string): boolean {
  const first = text.charCodeAt(0);
  return (first <= 32 || first >= 0x80) && text.trim() === "";
}
