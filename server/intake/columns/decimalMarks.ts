import type { Cell, GridRow } from "#server/terms/grid";
import type { Hints } from "#server/terms/row";
import { LONGEST_VALUE, type Mark, plainDigits, readNumber } from "../values/decimals";
import { Remembered } from "../values/remembered";
import { NUMBERS } from "./column";
import type { Draft } from "./recogniseColumns";

/**
 * The decimal mark of each column, from the cells that prove it; where none does, what was answered for the log or
 * declared. Null when cells prove both and nobody answered, or when nothing tells: then "3.500" stays open.
 */
export function decimalMarks(drafts: readonly Draft[], rows: readonly GridRow[], hints: Hints): (Mark | null)[] {
  const columns = drafts.map(({ meaning, index }) =>
    meaning === null || !NUMBERS.has(meaning) ? null : new MarksShown(index),
  );
  const ofNumbers = columns.filter((column) => column !== null);
  // row by row: a table of many rows is gone through once, however many columns of numbers it has
  for (let at = 0; at < rows.length; at++) for (const column of ofNumbers) column.look(rows[at]!);
  return columns.map((column) => (column === null ? null : column.mark(hints)));
}

/** Which marks the cells of one column prove. */
class MarksShown {
  readonly #index: number;
  readonly #shown = new Remembered(markShown);
  #points = false;
  #commas = false;

  constructor(index: number) {
    this.#index = index;
  }

  look(row: GridRow): void {
    const mark = this.#shown.at(row, this.#index);
    if (mark === ".") this.#points = true;
    else if (mark === ",") this.#commas = true;
  }

  mark({ answers, decimalMark }: Hints): Mark | null {
    const answer = answers?.decimalMark;
    if (this.#points && this.#commas) return answer ?? null;
    if (this.#points) return ".";
    return this.#commas ? "," : (answer ?? decimalMark ?? null);
  }
}

function markShown({ kind, text }: Cell): Mark | null {
  if (kind !== "text" || text.length > LONGEST_VALUE || !(text.includes(".") || text.includes(","))) return null;
  const number = /^[^\d.,]*([\d.,' \u00a0\u202f\u2009]*\d)/.exec(plainDigits(text))?.[1];
  const read = number === undefined ? null : readNumber(number);
  return read?.kind === "number" ? read.shows : null;
}
