import { BLANK, type Cell, type GridRow } from "#server/terms/grid";
import type { Bounds, Unreadable } from "#server/terms/row";
import { RowOfCells } from "../grid/rowOfCells";
import { type Book, type CellWritten, cellOf } from "./cell";
import { asWritten } from "./strings";
import { isTrue, XmlWalk } from "./xml";

const LAST_ROW = 1_048_576;
const LAST_COLUMN = 16_384;
/** Places, filled or not, that the rows of a workbook may take up: a bound on memory, not on what is logged. */
const MOST_PLACES = 20_000_000;

/** What all sheets of a workbook have taken up so far. */
export interface Taken {
  rows: number;
  places: number;
}

export interface SheetRead {
  readonly rows: GridRow[];
  readonly hiddenRows: number;
}

/**
 * Rows of one sheet in the order of their numbers. Rows and cells without a number follow the one before; rows in which
 * no cell holds a value are left out; a merged cell gives its value to its first place alone.
 *
 * Broken: ill-formed XML, a place outside the sheet, a row or a cell that comes twice, a shared text that is missing.
 */
export function sheetRows(bytes: Uint8Array, book: Book, bounds: Bounds, taken: Taken): SheetRead | Unreadable {
  const walk = new XmlWalk(bytes);
  const rows: GridRow[] = [];
  const columns = new Set<number>();
  let inData = false;
  let hiddenRows = 0;
  let number = 0;
  let sorted = true;
  let cells: Cell[] = [];
  let holds = false;
  let column = -1;
  const written: CellWritten = { type: null, style: 0, value: null, inline: "", formula: null };
  let phonetic = false;
  let refusal: Unreadable | null = null;

  const endCell = () => {
    const cell = cellOf(written, book);
    if (typeof cell === "string") return walk.fail(cell);
    if (cell === BLANK) return;
    if (cells[column] !== undefined && cells[column] !== BLANK) return walk.fail(`row ${number}: a cell comes twice`);
    if (cell.text.length > bounds.cellCharacters) {
      refusal = { refused: "cell-too-long", detail: `row ${number}: ${cell.text.length} > ${bounds.cellCharacters}` };
    }
    taken.places += Math.max(0, column + 1 - cells.length);
    if (taken.places > MOST_PLACES) refusal = { refused: "too-many-columns", detail: `row ${number}` };
    if (refusal !== null) return;
    while (cells.length < column) cells.push(BLANK);
    cells[column] = cell;
    if (cell.kind === "blank") return;
    holds = true;
    columns.add(column);
    if (columns.size > bounds.columns) refusal = { refused: "too-many-columns", detail: `more than ${bounds.columns}` };
  };

  while (refusal === null && walk.next()) {
    const { name, closes } = walk;
    if (name === "sheetData") {
      inData = !closes && !walk.empty;
      continue;
    }
    if (!inData) continue;
    if (name === "row") {
      if (!closes) {
        const place = walk.attribute("r");
        const next = place === null ? number + 1 : Number(place);
        if (!(Number.isInteger(next) && next > 0 && next <= LAST_ROW)) walk.fail(`row ${place?.slice(0, 20)}`);
        if (next < number) sorted = false;
        number = next;
        column = -1;
        cells = [];
        holds = false;
        if (isTrue(walk.attribute("hidden"))) hiddenRows++;
      }
      if ((closes || walk.empty) && holds) {
        rows.push(new RowOfCells(number, cells));
        if (++taken.rows > bounds.rows) refusal = { refused: "too-many-rows", detail: `more than ${bounds.rows}` };
      }
    } else if (name === "c") {
      if (!closes) {
        const place = walk.attribute("r");
        column = place === null ? column + 1 : columnOf(place);
        if (column < 0 || column >= LAST_COLUMN) walk.fail(`row ${number}: cell ${place?.slice(0, 20)}`);
        written.type = walk.attribute("t");
        written.style = Number(walk.attribute("s") ?? 0);
        written.value = null;
        written.inline = "";
        written.formula = null;
      }
      if (closes || walk.empty) endCell();
    } else if (name === "v") {
      if (closes) written.value = written.type === "str" ? asWritten(walk.text()) : walk.text();
    } else if (name === "f") {
      written.formula = closes ? walk.text() : (written.formula ?? "");
    } else if (name === "rPh") {
      phonetic = !closes && !walk.empty;
    } else if (name === "t" && closes && !phonetic) {
      written.inline += asWritten(walk.text());
    }
  }
  if (refusal !== null) return refusal;
  if (!sorted) rows.sort((a, b) => a.row - b.row);
  for (let i = 1; i < rows.length; i++)
    if (rows[i]!.row === rows[i - 1]!.row) walk.fail(`row ${rows[i]!.row} comes twice`);
  if (walk.broken !== null) return { refused: "damaged-archive", detail: walk.broken };
  return { rows, hiddenRows };
}

/** Index of the column that a place such as "AB12" names; -1 when it is no place. */
function columnOf(place: string): number {
  let index = 0;
  let i = 0;
  for (; i < place.length && i < 4; i++) {
    const code = place.charCodeAt(i);
    if (code < 65 || code > 90) break;
    index = index * 26 + code - 64;
  }
  if (i === 0 || i === place.length) return -1;
  for (; i < place.length; i++) {
    const code = place.charCodeAt(i);
    if (code < 48 || code > 57) return -1;
  }
  return index - 1;
}
