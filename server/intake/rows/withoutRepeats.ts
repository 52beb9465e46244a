import type { RowRead } from "#server/terms/row";

/**
 * Sets aside the second of two rows that are the same in every cell, when a number and a start (or pan) say that it is
 * the same load written twice. Equal rows without them may well be two loads and both stay.
 */
export function withoutRepeats(rows: readonly RowRead[]): RowRead[] {
  const seen = new Set<string>();
  return rows.map((row) => {
    const { batch } = row;
    if (row.fate !== "counted" || batch === null || batch.number === null) return row;
    if (batch.startMinute === null && batch.minutes === null) return row;
    const key = JSON.stringify([row.site, batch.day, batch.number, row.cells.map((cell) => [cell.meaning, cell.text])]);
    if (!seen.has(key)) {
      seen.add(key);
      return row;
    }
    const at = { sheet: row.sheet, row: row.row, column: null };
    return {
      ...row,
      fate: "set-aside",
      batch: null,
      driedOnly: false,
      fuel: [],
      reasons: [{ code: "same-row-already-here", at, text: "" }],
    };
  });
}
