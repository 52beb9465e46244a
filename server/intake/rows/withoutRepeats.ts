import type { RowOnGrid } from "#server/terms/row";
import { hashOf } from "../grid/textHash";

/**
 * Sets aside the second of two rows that are the same in every cell, when a number and a time say that it is the same
 * load written twice. Equal rows without them may well be two loads and both stay.
 */
export function withoutRepeats(rows: readonly RowOnGrid[]): readonly RowOnGrid[] {
  const seen = new RowsSeen(rows);
  let kept: RowOnGrid[] | null = null;
  for (let at = 0; at < rows.length; at++) {
    const row = rows[at];
    if (row === undefined || !couldBeRepeat(row) || !seen.repeats(at)) continue;
    kept ??= [...rows];
    kept[at] = asRepeated(row);
  }
  return kept ?? rows;
}

/** Whether a row has a number and a time by which its load is told from others. */
export function couldBeRepeat({ fate, batch }: RowOnGrid): boolean {
  if (fate !== "counted" || batch === null || batch.number === null) return false;
  return batch.startMinute !== null || batch.minutes !== null;
}

/** So many different rows of one number and day are remembered; more of them are no repeated rows but a log without numbers. */
const MOST_KEPT = 8;
/** So many rows of one hash are looked at; whoever makes numbers to fall on one place gains nothing. */
const MOST_TRIES = 64;

/** Finds rows by number and day. Each row is a number in two lists, so that nothing has to be made for it. */
class RowsSeen {
  readonly #rows: readonly RowOnGrid[];
  /** by hash: the row seen last, counted from 1; 0 where none was */
  readonly #last: Int32Array;
  /** by row: the one seen before it that has the same place */
  readonly #before: Int32Array;
  /** by row: the hash of its number and day */
  readonly #hashes: Int32Array;

  constructor(rows: readonly RowOnGrid[]) {
    this.#rows = rows;
    this.#last = new Int32Array(2 ** Math.ceil(Math.log2(rows.length + 1)));
    this.#before = new Int32Array(rows.length);
    this.#hashes = new Int32Array(rows.length);
  }

  /** Whether a row says the same as one that was asked about before. */
  repeats(at: number): boolean {
    const row = this.#rows[at]!;
    const hash = keyHash(row);
    const place = hash & (this.#last.length - 1);
    let alike = 0;
    let tries = 0;
    for (let other = this.#last[place]!; other !== 0 && tries < MOST_TRIES; other = this.#before[other - 1]!) {
      tries++;
      const before = this.#rows[other - 1]!;
      if (this.#hashes[other - 1] !== hash || !hasSameKey(before, row)) continue;
      if (saysTheSame(before, row)) return true;
      alike++;
    }
    if (alike === MOST_KEPT || tries === MOST_TRIES) return false;
    this.#before[at] = this.#last[place]!;
    this.#last[place] = at + 1;
    this.#hashes[at] = hash;
    return false;
  }
}

function keyHash({ batch }: RowOnGrid): number {
  return batch === null ? 0 : Math.imul(hashOf(batch.day), 31) ^ hashOf(batch.number ?? "");
}

function hasSameKey(a: RowOnGrid, b: RowOnGrid): boolean {
  return a.batch?.number === b.batch?.number && a.batch?.day === b.batch?.day;
}

function saysTheSame(a: RowOnGrid, b: RowOnGrid): boolean {
  if (a.site !== b.site) return false;
  const others = [...b.cells];
  const own = [...a.cells];
  return (
    own.length === others.length &&
    own.every((cell, at) => cell.meaning === others[at]?.meaning && cell.text === others[at]?.text)
  );
}

/** The row, set aside because the same row is here already. */
export function asRepeated<Row extends RowOnGrid>(row: Row): Row {
  const at = { sheet: row.sheet, row: row.row, column: null };
  const reasons = [{ code: "same-row-already-here", at, text: "" }] as const;
  return { ...row, fate: "set-aside", day: null, batch: null, driedOnly: false, fuel: [], reasons };
}
