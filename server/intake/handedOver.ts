import type { RowOnGrid, RowRead } from "#server/terms/row";

/** Rows as they leave their grid: plain values, with a list of the cells of each. */
export function handedOver(rows: readonly RowOnGrid[]): RowRead[] {
  return rows.map((row) => ({ ...row, cells: [...row.cells] }));
}
