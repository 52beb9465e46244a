import { BLANK, type Cell } from "#server/terms/grid";
import { MOST_SHARED, SharedCell } from "./sharedCell";
import { hashOf } from "./textHash";

/** So many places of a table are tried for a text; whoever makes texts to fall on one place gains nothing. */
const MOST_TRIES = 16;
/** A column with so many texts that were not met before is one of names: no more of them are looked for. */
const MOST_NEW = 2 * MOST_SHARED;

/** The different texts of one column, each with one cell for all its places, found by their characters. */
export class ColumnTexts {
  readonly #cells: Cell[] = [];
  readonly #hashes: number[] = [];
  /** by hash: which of the cells, from 1; 0 where none is */
  #places = new Int32Array(16);
  #new = 0;
  /** the one found last: a day, a fuel or a site stands in many rows one after the other */
  #last = -1;

  /** The number of the cell that stands for a text; -1 for a text that stands alone. */
  numberOf(text: string, from: number, to: number): number {
    if (this.#last !== -1 && isAt(text, from, to, this.#cells[this.#last]!.text)) return this.#last;
    if (this.#new === MOST_NEW) return -1;
    const hash = hashOf(text, from, to);
    const last = this.#places.length - 1;
    let place = hash & last;
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      const which = this.#places[place]!;
      if (which === 0) return this.#add(text, from, to, hash, place);
      if (this.#hashes[which - 1] === hash && isAt(text, from, to, this.#cells[which - 1]!.text)) {
        this.#last = which - 1;
        return this.#last;
      }
      place = (place + 1) & last;
    }
    return -1;
  }

  cell(number: number): Cell {
    return this.#cells[number] ?? BLANK;
  }

  #add(text: string, from: number, to: number, hash: number, place: number): number {
    const number = this.#cells.length;
    this.#new++;
    if (number === MOST_SHARED) return -1;
    const own = text.slice(from, to);
    this.#cells.push(new SharedCell(own, kindOf(own), null, number));
    this.#hashes.push(hash);
    this.#places[place] = number + 1;
    if (number * 2 > this.#places.length) this.#widen();
    return number;
  }

  #widen(): void {
    const places = new Int32Array(this.#places.length * 4);
    const last = places.length - 1;
    for (const [at, hash] of this.#hashes.entries()) {
      let place = hash & last;
      while (places[place] !== 0) place = (place + 1) & last;
      places[place] = at + 1;
    }
    this.#places = places;
  }
}

function isAt(text: string, from: number, to: number, known: string): boolean {
  if (known.length !== to - from) return false;
  // texts are short: a loop is done before a search has begun
  for (let at = 0; at < known.length; at++) if (known.charCodeAt(at) !== text.charCodeAt(from + at)) return false;
  return true;
}

/** A text of nothing but spaces says nothing. */
export function kindOf(text: string): "blank" | "text" {
  const first = text.charCodeAt(0);
  return (first <= 32 || first >= 0x80) && text.trim() === "" ? "blank" : "text";
}
