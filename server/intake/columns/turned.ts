import { BLANK, type Cell, type GridRow, type Sheet } from "#server/terms/grid";
import { RowOfCells } from "../grid/rowOfCells";
import { findTables } from "./findTables";

/** A sheet that is wider or longer than this was not written with a load a column. */
const MOST_COLUMNS = 400;
const MOST_ROWS = 100;

/**
 * A sheet that has its headings in a column and a load in each further column, turned so that it has a load a row; null
 * for any sheet that has a table as it stands, or none either way.
 *
 * The turned sheet says so in its name, "Log (turned)": its row 3 is the third column of the sheet that was sent, and its
 * column B the second row.
 */
export function turned(sheet: Sheet): Sheet | null {
  const last = sheet.rows[sheet.rows.length - 1]?.row ?? 0;
  if (last > MOST_ROWS) return null;
  const width = sheet.rows.reduce((most, row) => Math.max(most, row.width), 0);
  if (width > MOST_COLUMNS || width < 2 || sheet.rows.length < 2) return null;
  if (findTables(sheet).length > 0) return null;
  const rows: GridRow[] = [];
  for (let column = 0; column < width; column++) {
    const cells: Cell[] = new Array(last).fill(BLANK);
    for (const across of sheet.rows) cells[across.row - 1] = alone(across.at(column));
    if (cells.some(({ text }) => text.trim() !== "")) rows.push(new RowOfCells(column + 1, cells));
  }
  const side = { name: `${sheet.name} (turned)`, hidden: sheet.hidden, rows };
  const [table] = findTables(side);
  return table !== undefined && table.to > table.from ? side : null;
}

/** The cell without the number by which it was known in its column: cells of several columns come into one. */
function alone({ text, kind, value }: Cell): Cell {
  return { text, kind, value };
}
