import { type Shape, shapeOf } from "./shape";

/** What the cells of one column look like: how often each pattern and each shape comes. */
interface ColumnLooks {
  readonly patterns: ReadonlyMap<string, number>;
  readonly shapes: ReadonlyMap<Shape, number>;
  readonly cells: number;
}

/** Looks of the columns, and how well a usual row fits them. */
export interface Profile {
  readonly columns: readonly ColumnLooks[];
  readonly usualFit: number;
}

const PROFILED = 400;

/** Looks of each column, from rows that have exactly so many cells. */
export function profileOf(rows: readonly (readonly string[])[], width: number): Profile {
  const usual = rows.filter((row) => row.length === width).slice(0, PROFILED);
  const columns = Array.from({ length: width }, (_, column) => {
    const patterns = new Map<string, number>();
    const shapes = new Map<Shape, number>();
    for (const row of usual) {
      const { pattern, shape } = looksOf(row[column]!);
      patterns.set(pattern, (patterns.get(pattern) ?? 0) + 1);
      shapes.set(shape, (shapes.get(shape) ?? 0) + 1);
    }
    return { patterns, shapes, cells: usual.length };
  });
  const some = usual.slice(0, 50).map((row) => fitOfRow(row, columns));
  return { columns, usualFit: some.reduce((sum, fit) => sum + fit, 0) / Math.max(1, some.length) };
}

export interface Looks {
  readonly pattern: string;
  readonly shape: Shape;
}

/** "28/01/2031" looks like "9/9/9", "MG-8769" like "a-9". */
export function looksOf(cell: string): Looks {
  const start = cell.slice(0, 60);
  return { pattern: start.replace(/\d+/g, "9").replace(/[^\P{L}]+/gu, "a"), shape: shapeOf(cell) };
}

/** How well a cell fits into a column, from 0 to 1. */
export function fitOf(looks: Looks, column: ColumnLooks | undefined): number {
  if (column === undefined || column.cells === 0) return 0;
  const pattern = (column.patterns.get(looks.pattern) ?? 0) / column.cells;
  const shape = (column.shapes.get(looks.shape) ?? 0) / column.cells;
  return Math.max(pattern, 0.8 * shape);
}

export function fitOfRow(cells: readonly string[], columns: Profile["columns"]): number {
  let sum = 0;
  for (let i = 0; i < columns.length; i++) sum += fitOf(looksOf(cells[i] ?? ""), columns[i]);
  return sum / columns.length;
}
