import type { RowRead } from "#server/terms/row";

/**
 * Sets aside the second of two rows that are the same in every cell, when a number and a time say that it is the same
 * load written twice. Equal rows without them may well be two loads and both stay.
 */
export function withoutRepeats(rows: readonly RowRead[]): RowRead[] {
  const seen = new Map<string, RowRead[]>();
  const kept: RowRead[] = [];
  for (const row of rows) kept.push(isRepeat(row, seen) ? setAside(row) : row);
  return kept;
}

/** So many different rows of one number and day are remembered; more of them are no repeated rows but a log without numbers. */
const MOST_KEPT = 8;

function isRepeat(row: RowRead, seen: Map<string, RowRead[]>): boolean {
  const { batch } = row;
  if (row.fate !== "counted" || batch === null || batch.number === null) return false;
  if (batch.startMinute === null && batch.minutes === null) return false;
  const key = `${row.site} ${batch.day} ${batch.number}`;
  const before = seen.get(key);
  if (before === undefined) {
    seen.set(key, [row]);
    return false;
  }
  if (before.some((other) => saysTheSame(other, row))) return true;
  if (before.length < MOST_KEPT) before.push(row);
  return false;
}

function saysTheSame(a: RowRead, b: RowRead): boolean {
  return (
    a.cells.length === b.cells.length &&
    a.cells.every((cell, at) => cell.meaning === b.cells[at]?.meaning && cell.text === b.cells[at]?.text)
  );
}

function setAside(row: RowRead): RowRead {
  const at = { sheet: row.sheet, row: row.row, column: null };
  const reasons = [{ code: "same-row-already-here", at, text: "" }] as const;
  return { ...row, fate: "set-aside", batch: null, driedOnly: false, fuel: [], reasons };
}
