import type { BatchWritten, Quantity } from "#server/terms/batch";
import type { Meaning, ReadingOnGrid, RowOnGrid } from "#server/terms/row";

/** A row with both weights, whatever became of it. */
export interface Load {
  readonly row: RowOnGrid;
  readonly batch: BatchWritten;
  readonly fresh: Quantity;
  readonly dried: Quantity;
}

/** The loads of one sheet, in the order of its rows. */
export function loadsOf(rows: readonly RowOnGrid[]): Load[] {
  return rows.flatMap((row) => {
    const { batch } = row;
    if (row.fate === "set-aside" || row.driedOnly || batch?.fresh == null || batch.dried === null) return [];
    return batch.fresh.value > 0 ? [{ row, batch, fresh: batch.fresh, dried: batch.dried }] : [];
  });
}

export function rowNumbers(loads: readonly { readonly row: RowOnGrid }[]): number[] {
  return loads.map(({ row }) => row.row);
}

/** Dried over fresh of some loads together, kg per kg; null when there is none. */
export function pooled(loads: readonly { readonly freshKg: number; readonly driedKg: number }[]): number | null {
  let fresh = 0;
  let dried = 0;
  for (const { freshKg, driedKg } of loads) {
    fresh += freshKg;
    dried += driedKg;
  }
  return fresh > 0 ? dried / fresh : null;
}

export function kgOf({ fresh, dried }: Load): { readonly freshKg: number; readonly driedKg: number } {
  return { freshKg: fresh.value, driedKg: dried.value };
}

/** The middle one of some numbers, the lower of two; null when there is none. */
export function middle(numbers: readonly number[]): number | null {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] ?? null;
}

/** The column in which a row says something, by letter. */
export function columnOf(row: RowOnGrid, meaning: Meaning): string | null {
  for (const cell of row.cells) if (cell.meaning === meaning) return cell.column;
  return null;
}

/** What stands in a cell, as the key of an answer: "June!C14". */
export function placeOf(row: RowOnGrid, column: string): string {
  return `${row.sheet}!${column}${row.row}`;
}

/** The finest step in which some weights are written, in kg: 0.01 when any has two decimals. */
export function stepOf(weights: readonly Quantity[]): number {
  const places = weights.map(({ exact }) => (exact.includes(".") ? exact.length - exact.indexOf(".") - 1 : 0));
  return 10 ** -Math.max(0, ...places);
}

/** The rows of each sheet, in the order of the file. */
export function bySheet({ rows }: ReadingOnGrid): ReadonlyMap<string, readonly RowOnGrid[]> {
  const sheets = new Map<string, RowOnGrid[]>();
  for (const row of rows) {
    const own = sheets.get(row.sheet);
    if (own === undefined) sheets.set(row.sheet, [row]);
    else own.push(row);
  }
  return sheets;
}

/** A dry yield that larvae can have: common practice. */
export function isPlausible(share: number): boolean {
  return share >= 0.2 && share <= 0.5;
}
