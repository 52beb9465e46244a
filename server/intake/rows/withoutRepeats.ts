import type { RowRead } from "#server/terms/row";

/**
 * Sets aside the second of two rows that are the same in every cell, when a number and a time say that it is the same
 * load written twice. Equal rows without them may well be two loads and both stay.
 */
export function withoutRepeats(rows: readonly RowRead[]): readonly RowRead[] {
  const seen = new Map<string, Map<string, RowRead | RowRead[]>>();
  let kept: RowRead[] | null = null;
  for (let at = 0; at < rows.length; at++) {
    const row = rows[at];
    if (row === undefined || !isRepeat(row, seen)) continue;
    kept ??= [...rows];
    kept[at] = asRepeated(row);
  }
  return kept ?? rows;
}

/** So many different rows of one number and day are remembered; more of them are no repeated rows but a log without numbers. */
const MOST_KEPT = 8;

/** Whether a row has a number and a time by which its load is told from others. */
export function couldBeRepeat({ fate, batch }: RowRead): boolean {
  if (fate !== "counted" || batch === null || batch.number === null) return false;
  return batch.startMinute !== null || batch.minutes !== null;
}

function isRepeat(row: RowRead, seen: Map<string, Map<string, RowRead | RowRead[]>>): boolean {
  const { batch } = row;
  if (!couldBeRepeat(row) || batch === null || batch.number === null) return false;
  let ofDay = seen.get(batch.day);
  if (ofDay === undefined) {
    ofDay = new Map();
    seen.set(batch.day, ofDay);
  }
  const before = ofDay.get(batch.number);
  if (before === undefined) {
    ofDay.set(batch.number, row);
    return false;
  }
  const all = Array.isArray(before) ? before : [before];
  if (all.some((other) => saysTheSame(other, row))) return true;
  if (all.length < MOST_KEPT) ofDay.set(batch.number, [...all, row]);
  return false;
}

function saysTheSame(a: RowRead, b: RowRead): boolean {
  return (
    a.site === b.site &&
    a.cells.length === b.cells.length &&
    a.cells.every((cell, at) => cell.meaning === b.cells[at]?.meaning && cell.text === b.cells[at]?.text)
  );
}

/** The row, set aside because the same row is here already. */
export function asRepeated(row: RowRead): RowRead {
  const at = { sheet: row.sheet, row: row.row, column: null };
  const reasons = [{ code: "same-row-already-here", at, text: "" }] as const;
  return { ...row, fate: "set-aside", batch: null, driedOnly: false, fuel: [], reasons };
}
