import type { Cell, GridRow } from "#server/terms/grid";
import type { Column } from "../columns/column";
import type { FoundTable } from "../columns/findTables";
import { RowOfCells } from "../grid/rowOfCells";
import { isDigit } from "../values/decimals";
import { Remembered } from "../values/remembered";
import { isDitto } from "../values/words";
import { CellsSaid } from "./cellsSaid";
import { totalWord } from "./structure";
import type { RowAtHand, TableAtHand } from "./table";

const NO_ROW = new RowOfCells(0, []);
const NOTHING: RowAtHand["said"] = [];
const NO_DITTOS: RowAtHand["dittos"] = [];

/**
 * A reader that looks up the rows of a table in their order: puts answers in and takes the cell above for a ditto mark.
 * Nothing is carried on from a row of totals.
 */
export function lookUp(table: TableAtHand, rows: readonly GridRow[], found: FoundTable): (at: number) => RowAtHand {
  // the last mark of each column and the cell that it stood for, so that a column of marks is walked up only once
  const marks: ({ readonly at: number; readonly cell: Cell | null } | undefined)[] = [];
  const columns = table.lookedUp.map((column) => ({ column, marked: new Remembered(isMark) }));
  return (at) => {
    const raw = rows[at] ?? NO_ROW;
    const total = totalWord(raw);
    if (total !== null) return { row: raw.row, raw, total, changed: null, said: NOTHING, dittos: NO_DITTOS };
    let changed = table.puts === null ? null : putsOf(table, raw);
    let dittos: Column[] | null = null;
    for (const { column, marked } of columns) {
      const put = changed === null ? undefined : changed[column.index];
      if (!(put === undefined ? marked.at(raw, column.index) : isMark(put))) continue;
      const above = cellAbove(at, column);
      marks[column.index] = { at, cell: above };
      if (above === null) continue;
      changed ??= [];
      changed[column.index] = above;
      dittos ??= [];
      dittos.push(column);
    }
    return { row: raw.row, raw, total, changed, said: new CellsSaid(table, raw), dittos: dittos ?? NO_DITTOS };
  };

  function cellAbove(at: number, column: Column): Cell | null {
    const mark = marks[column.index];
    for (let above = at - 1; above >= found.from && above > (mark?.at ?? -1); above--) {
      const row = rows[above];
      if (row === undefined || found.repeatsAt.has(above)) continue;
      const cell = putAt(table, row, column) ?? row.at(column.index);
      if (cell.text.trim() === "" || isMark(cell)) continue;
      if (totalWord(row) === null) return cell;
    }
    return mark?.cell ?? null;
  }
}

/** A cell that only says "as above". */
function isMark({ kind, text }: Cell): boolean {
  // no digit is in a mark, so none at either end
  if (kind !== "text" || isDigit(text.charCodeAt(0)) || isDigit(text.charCodeAt(text.length - 1))) return false;
  return isDitto(text);
}

function putsOf(table: TableAtHand, raw: GridRow): (Cell | undefined)[] | null {
  let puts: (Cell | undefined)[] | null = null;
  for (const column of table.columns) {
    const put = putAt(table, raw, column);
    if (put === null) continue;
    puts ??= [];
    puts[column.index] = put;
  }
  return puts;
}

/** What a person has put in the place of a cell. */
function putAt(table: TableAtHand, { row }: GridRow, { column }: Column): Cell | null {
  if (table.puts === null) return null;
  const key = `${table.sheet}!${column}${row}`;
  const put = Object.hasOwn(table.puts, key) ? table.puts[key] : undefined;
  return put === undefined ? null : { text: put, kind: "text", value: null };
}
