import { usualWidth } from "./dialect";
import { isValueShape, type Shape, shapeOf } from "./shape";

/** One row on the way to a table: its cells, and how many rows without any cell stand before it. */
export interface Line<Row> {
  readonly row: Row;
  readonly cells: readonly string[];
  readonly gap: number;
}

/** One table found among rows: the rows of its heading (none where it has none) and of its body. */
export interface Table<Row> {
  readonly heading: readonly Line<Row>[];
  readonly body: readonly Line<Row>[];
}

const LOOK_AHEAD = 6;
const MOST_HEADING_ROWS = 6;
const LONGEST_NAME = 80;
/** what groups of columns are named after, and values of a column seldom are */
const YEAR = /^(?:19|20)\d\d(?:[-/]\d{2,4})?$/;
/** a later table is taken instead of the first one when it holds so many times as much */
const CLEARLY_LARGER = 2;

/**
 * The table that a file is about, out of all its rows: without what stands before it and after it.
 *
 * A heading is told by what follows it: where the rows below hold numbers, days or times, it holds words. A row like that
 * in the middle begins another table, or goes on with the same one when it repeats its heading. Of several tables the
 * first is taken, unless another one is clearly larger. Rows of a single cell around a wider table are titles and notes.
 */
export function mainTable<Row>(lines: readonly Line<Row>[]): Table<Row> {
  const tables = tablesIn(lines);
  let best = tables[0];
  for (const table of tables) if (best === undefined || filled(table) > CLEARLY_LARGER * filled(best)) best = table;
  return best ?? { heading: [], body: [] };
}

function tablesIn<Row>(lines: readonly Line<Row>[]): Table<Row>[] {
  const headings = headingsIn(lines);
  const first = headings[0];
  if (first === undefined) return [withoutFrame([], lines)];
  const tables: Table<Row>[] = [];
  const before = withoutFrame([], lines.slice(0, first.from));
  if (
    before.body.length >= 3 &&
    valueColumns(before.body.map(shapesOf), usualWidth(before.body.map(cellsOf))).length > 0
  ) {
    tables.push(before);
  }
  for (const [n, { from, to }] of headings.entries()) {
    const table = withoutFrame(lines.slice(from, to), lines.slice(to, headings[n + 1]?.from ?? lines.length));
    const last = tables.at(-1);
    if (last === undefined || !sameCells(last.heading, table.heading)) tables.push(table);
    else if (!repeats(last.body, table.body)) {
      tables[tables.length - 1] = { heading: last.heading, body: [...last.body, ...table.body] };
    }
  }
  return tables;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

/** Where headings stand: from their first row up to the first row of the body below. */
function headingsIn<Row>(lines: readonly Line<Row>[]): Span[] {
  const shapes = lines.map(shapesOf);
  const headings: Span[] = [];
  for (let to = 1; to < lines.length; to++) {
    const from = startOfHeading(lines, shapes, to, headings.at(-1)?.to ?? 0);
    if (from === to || (headings.length > 0 && !beginsAnother(lines, from, to))) continue;
    headings.push({ from, to });
  }
  return headings;
}

/**
 * First row of the heading above row `to`, or `to` where none stands there: rows side by side with two cells or more,
 * none of them a value where the rows below hold values, which together name most of those columns.
 */
function startOfHeading<Row>(
  lines: readonly Line<Row>[],
  shapes: readonly (readonly Shape[])[],
  to: number,
  earliest: number,
): number {
  const below = shapes.slice(to, to + LOOK_AHEAD).filter((row) => row.length < 3 || filledIn(row) > 1);
  const columns = valueColumns(below);
  if (columns.length === 0) return to;
  const named = new Set<number>();
  const isWide = shapes[to]!.length > 2;
  let from = to;
  while (from > Math.max(earliest, to - MOST_HEADING_ROWS)) {
    const row = shapes[from - 1]!;
    const isBase = from === to;
    const isValue = (column: number) =>
      isValueShape(row[column] ?? "blank") && (isBase || !YEAR.test(lines[from - 1]!.cells[column]!.trim()));
    if (columns.some(isValue)) break;
    if (isWide && filledIn(row) < 2) break;
    if (!isBase && (lines[from]!.gap > 0 || !isGroupRow(row, shapes[from]!))) break;
    from--;
    for (const column of columns) if ((row[column] ?? "blank") !== "blank") named.add(column);
  }
  return named.size >= Math.max(1, columns.length * 0.6) ? from : to;
}

/** A row above another row of a heading: as wide, and either named throughout or naming groups to the right of the first column. */
function isGroupRow(row: readonly Shape[], below: readonly Shape[]): boolean {
  return row.length === below.length && (row[0] === "blank" || filledIn(row) * 2 >= filledIn(below));
}

function filledIn(row: readonly Shape[]): number {
  return row.filter((shape) => shape !== "blank").length;
}

function shapesOf<Row>(line: Line<Row>): Shape[] {
  return line.cells.map(shapeOf);
}

function cellsOf<Row>(line: Line<Row>): readonly string[] {
  return line.cells;
}

/** In the middle of a table a heading is as wide as the row below it, or stands after an empty row, and is brief. */
function beginsAnother<Row>(lines: readonly Line<Row>[], from: number, to: number): boolean {
  const heading = lines.slice(from, to);
  if (heading.some(({ cells }) => cells.some((cell) => cell.length > LONGEST_NAME))) return false;
  return lines[from]!.gap > 0 || heading.at(-1)!.cells.length === lines[to]?.cells.length;
}

/** Columns in which most of the filled cells of these rows look like values; without `width` the first row must, too. */
function valueColumns(rows: readonly (readonly Shape[])[], width?: number): number[] {
  const first = rows[0] ?? [];
  const columns: number[] = [];
  for (let column = 0; column < (width ?? first.length); column++) {
    if (width === undefined && !isValueShape(first[column]!)) continue;
    const seen = rows.map((row) => row[column] ?? "blank").filter((shape) => shape !== "blank");
    if (seen.filter(isValueShape).length > seen.length * 0.6) columns.push(column);
  }
  return columns;
}

/**
 * A table without titles above it and notes below it: rows that hold far less than the others, or no value where the
 * others do, and that stand apart, are shorter, or say more in their first cell than the column ever does.
 */
function withoutFrame<Row>(heading: readonly Line<Row>[], rows: readonly Line<Row>[]): Table<Row> {
  const counts = rows.map(({ cells }) => cells.filter((cell) => cell.trim() !== "").length);
  const usual = [...counts].sort((a, b) => a - b)[Math.floor(counts.length * 0.75)] ?? 0;
  if (usual < 2) return { heading, body: rows };
  const width = usualWidth(rows.map((line) => line.cells));
  const columns = valueColumns(
    rows.map((line) => line.cells.map(shapeOf)),
    width,
  );
  const isPoor = (i: number) => {
    const held = columns.some((column) => isValueShape(shapeOf(rows[i]!.cells[column] ?? "")));
    return !held && (columns.length > 1 || (usual > 2 && counts[i]! < 2));
  };
  let from = 0;
  let to = rows.length;
  const isTitle = (i: number) => {
    const apart = rows[i]!.cells.length < width || (rows[i + 1]?.gap ?? 0) > 0;
    return counts[i]! < 2 || (counts[i]! < 0.4 * usual && apart);
  };
  if (heading.length === 0 && usual > 2) while (from < to && isTitle(from)) from++;
  let poor = to;
  while (poor > from + 1 && isPoor(poor - 1)) poor--;
  const longest = rows.slice(from, poor).reduce((most, { cells }) => Math.max(most, cells[0]?.length ?? 0), 0);
  const isNote = ({ cells, gap }: Line<Row>) => cells.length < width || gap > 0 || (cells[0]?.length ?? 0) > longest;
  const note = rows.slice(poor, to).findIndex(isNote);
  if (note !== -1) to = poor + note;
  return { heading, body: rows.slice(from, to) };
}

function filled<Row>({ heading, body }: Table<Row>): number {
  let cells = 0;
  for (const line of [...heading, ...body]) for (const cell of line.cells) if (cell.trim() !== "") cells++;
  return cells;
}

function sameCells<Row>(a: readonly Line<Row>[], b: readonly Line<Row>[]): boolean {
  return a.length > 0 && a.length === b.length && a.every((line, i) => textOf(line) === textOf(b[i]!));
}

/** True when most rows were already among those before: a copy, not a continuation. */
function repeats<Row>(before: readonly Line<Row>[], after: readonly Line<Row>[]): boolean {
  const known = new Set(before.map(textOf));
  return after.filter((line) => known.has(textOf(line))).length > after.length / 2;
}

function textOf<Row>(line: Line<Row>): string {
  const cells = line.cells.map((cell) => cell.trim().toLowerCase());
  while (cells.at(-1) === "") cells.pop();
  return cells.join("\u001f");
}
