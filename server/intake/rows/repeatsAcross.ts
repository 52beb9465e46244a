import type { RowOnGrid } from "#server/terms/row";
import { asRepeated, couldBeRepeat } from "./withoutRepeats";

const FIRST_ROOM = 2 ** 12;
/** So full the table may be before it is laid out anew, twice as large. */
const FULL = 0.6;

/**
 * Sets aside the second of two rows that are the same in every cell where the first came in an earlier part of the same
 * log: as `withoutRepeats` does within one part. Of each row only a mark of 53 bits is kept, so a million rows take
 * 32 MB; two different rows share a mark about once in ten thousand logs of a million rows.
 */
export class RepeatsAcross {
  private marks = new Float64Array(FIRST_ROOM);
  private kept = 0;

  /** The rows of the next part, those set aside that an earlier part had already. */
  of<Row extends RowOnGrid>(rows: readonly Row[]): readonly Row[] {
    const marks = rows.map((row) => (couldBeRepeat(row) ? markOf(row) : 0));
    const without = rows.map((row, at) => (this.has(marks[at] ?? 0) ? asRepeated(row) : row));
    for (const mark of marks) this.keep(mark);
    return without;
  }

  private has(mark: number): boolean {
    return mark !== 0 && this.marks[placeOf(this.marks, mark)] === mark;
  }

  private keep(mark: number): void {
    if (mark === 0 || this.has(mark)) return;
    if (this.kept > this.marks.length * FULL) {
      const larger = new Float64Array(this.marks.length * 2);
      for (const one of this.marks) if (one !== 0) larger[placeOf(larger, one)] = one;
      this.marks = larger;
    }
    this.marks[placeOf(this.marks, mark)] = mark;
    this.kept++;
  }
}

/** Where a mark stands in a table, or the first free place for it. */
function placeOf(marks: Float64Array, mark: number): number {
  let at = mark % marks.length;
  while (marks[at] !== 0 && marks[at] !== mark) at = (at + 1) % marks.length;
  return at;
}

/** 53 bits of what a row says, never 0: two hashes of 32 bits (FNV-1a and a multiplicative one) side by side. */
function markOf({ site, batch, cells }: RowOnGrid): number {
  const text = JSON.stringify([site, batch?.day, Array.from(cells, ({ meaning, text }) => [meaning, text])]);
  let one = 0x811c9dc5;
  let other = 0x9e3779b9;
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    one = Math.imul(one ^ unit, 0x01000193);
    other = Math.imul((other << 5) ^ (other >>> 27) ^ unit, 0x85ebca6b);
  }
  return ((one >>> 0) & 0x1fffff) * 2 ** 32 + (other >>> 0) || 1;
}
