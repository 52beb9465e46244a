import { BLANK, type Cell, type GridRow } from "#server/terms/grid";
import type { CellRead } from "#server/terms/row";
import { type Column, cellAt } from "../columns/column";
import type { FoundTable } from "../columns/findTables";
import { isDitto } from "../values/words";
import { totalWord } from "./structure";
import type { RowAtHand, TableAtHand } from "./table";

const NOTHING: RowAtHand["said"] = [];
const NO_DITTOS: RowAtHand["dittos"] = [];

/**
 * A reader that looks up the rows of a table in their order: puts answers in and takes the cell above for a ditto mark.
 * Nothing is carried on from a row of totals.
 */
export function lookUp(table: TableAtHand, rows: readonly GridRow[], found: FoundTable): (at: number) => RowAtHand {
  // the last mark of each column and the cell that it stood for, so that a column of marks is walked up only once
  const marks: ({ readonly at: number; readonly cell: Cell | null } | undefined)[] = [];
  return (at) => {
    const raw = rows[at] ?? { row: 0, cells: [] };
    const total = totalWord(raw);
    if (total !== null) return { row: raw.row, raw, total, cells: raw.cells, said: NOTHING, dittos: NO_DITTOS };
    const said = new Array<CellRead>(table.lookedUp.length);
    let count = 0;
    let cells = table.puts === null ? null : withPuts(table, raw);
    let dittos: Column[] | null = null;
    for (const column of table.lookedUp) {
      const own = raw.cells[column.index] ?? BLANK;
      const trail = own.kind === "blank" ? null : table.read.trail(column, own);
      if (trail !== null) said[count++] = trail.said;
      const cell = cells?.[column.index] ?? own;
      if (cell.kind === "blank" || !(cell === own ? trail : table.read.trail(column, cell))?.isDitto) continue;
      const above = cellAbove(at, column);
      marks[column.index] = { at, cell: above };
      if (above === null) continue;
      cells ??= [...raw.cells];
      cells[column.index] = above;
      dittos ??= [];
      dittos.push(column);
    }
    said.length = count;
    return { row: raw.row, raw, total, cells: cells ?? raw.cells, said, dittos: dittos ?? NO_DITTOS };
  };

  function cellAbove(at: number, column: Column): Cell | null {
    const mark = marks[column.index];
    for (let above = at - 1; above >= found.from && above > (mark?.at ?? -1); above--) {
      const row = rows[above];
      if (row === undefined || found.repeatsAt.has(above)) continue;
      const cell = putAt(table, row, column) ?? cellAt(row, column.index);
      if (cell.text.trim() === "" || (cell.kind === "text" && isDitto(cell.text))) continue;
      if (totalWord(row) === null) return cell;
    }
    return mark?.cell ?? null;
  }
}

function withPuts(table: TableAtHand, raw: GridRow): Cell[] | null {
  let cells: Cell[] | null = null;
  for (const column of table.columns) {
    const put = putAt(table, raw, column);
    if (put === null) continue;
    cells ??= [...raw.cells];
    while (cells.length <= column.index) cells.push(BLANK);
    cells[column.index] = put;
  }
  return cells;
}

/** What a person has put in the place of a cell. */
function putAt(table: TableAtHand, { row }: GridRow, { column }: Column): Cell | null {
  if (table.puts === null) return null;
  const key = `${table.sheet}!${column}${row}`;
  const put = Object.hasOwn(table.puts, key) ? table.puts[key] : undefined;
  return put === undefined ? null : { text: put, kind: "text", value: null };
}
