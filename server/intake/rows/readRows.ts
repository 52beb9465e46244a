import type { Cell, GridRow, Sheet } from "#server/terms/grid";
import type { ProblemCode } from "#server/terms/problem";
import type { RowRead, TotalCheck } from "#server/terms/row";
import { cellAt, SEALED } from "../columns/column";
import type { FoundTable } from "../columns/findTables";
import { asideRow, sealAll } from "./aside";
import { readTableRow } from "./readTableRow";
import { isBlank, totalWord } from "./structure";
import { type Carried, newCarried, type RowAtHand, type TableAtHand } from "./table";
import { Totals } from "./totals";

/** A table with what its columns mean. */
export interface TableToRead {
  readonly found: FoundTable;
  readonly table: TableAtHand;
}

/** Every row of a sheet with its one fate, in the order of the sheet. */
export function readRows(sheet: Sheet, tables: readonly TableToRead[]): { rows: RowRead[]; totals: TotalCheck[] } {
  const rows: RowRead[] = [];
  const totals: TotalCheck[] = [];
  let at = 0;
  for (const { found, table } of tables) {
    const headingFrom = found.headingAt[0] ?? found.from;
    for (; at < headingFrom; at++) push(outside(sheet.name, sheet.rows[at], "before-the-table"));
    for (; at < found.from; at++)
      push(outside(sheet.name, sheet.rows[at], at === found.unitsAt ? "units-row" : "heading-row"));
    const carried = newCarried();
    const sums = new Totals();
    for (; at < found.to; at++) {
      const raw = sheet.rows[at];
      if (raw === undefined) continue;
      if (found.repeatsAt.has(at)) push(outside(sheet.name, raw, "heading-row"));
      else push(readTableRow(table, lookUp(table, raw, carried), carried, sums, totals));
    }
    tailAfter(rows);
  }
  const code = tables.length === 0 ? (sheet.hidden ? "hidden-sheet" : "no-table-in-sheet") : "after-the-table";
  for (; at < sheet.rows.length; at++) push(outside(sheet.name, sheet.rows[at], code));
  return { rows, totals };

  function push(row: RowRead | null): void {
    if (row !== null) rows.push(row);
  }
}

function outside(sheet: string, row: GridRow | undefined, code: ProblemCode): RowRead | null {
  if (row === undefined) return null;
  return asideRow(sheet, row, isBlank(row) ? "blank-row" : code, sealAll(row, null));
}

/** Notes below the last row with a value stand after the table. */
function tailAfter(rows: RowRead[]): void {
  for (let at = rows.length - 1; at >= 0; at--) {
    const row = rows[at];
    const [reason] = row?.reasons ?? [];
    if (row === undefined || row.fate !== "set-aside" || reason === undefined) return;
    if (reason.code === "note-row") rows[at] = { ...row, reasons: [{ ...reason, code: "after-the-table" }] };
    else if (reason.code !== "blank-row") return;
  }
}

const NO_DITTOS: RowAtHand["dittos"] = [];

/** Puts answers in and takes the cell above for a ditto mark; nothing is carried on from a row of totals. */
function lookUp(table: TableAtHand, raw: GridRow, carried: Carried): RowAtHand {
  if (totalWord(raw) !== null) return { row: raw.row, raw, cells: raw.cells, dittos: NO_DITTOS };
  let dittos: RowAtHand["dittos"][number][] | null = null;
  let cells: Cell[] | null = null;
  for (const column of table.columns) {
    const cell = cellAt(raw, column.index);
    const put = table.puts === null ? undefined : own(table.puts, `${table.sheet}!${column.column}${raw.row}`);
    if (put !== undefined) {
      cells ??= [...raw.cells];
      pad(cells, column.index);
      cells[column.index] = { text: put, kind: "text", value: null };
    } else if (
      cell.kind === "text" &&
      mayBeDitto(cell.text) &&
      column.meaning !== null &&
      !SEALED.has(column.meaning)
    ) {
      const above = carried.above[column.index];
      if (above !== undefined && table.read.isDitto(column, cell)) {
        cells ??= [...raw.cells];
        cells[column.index] = above;
        dittos ??= [];
        dittos.push(column);
        continue;
      }
    }
    const now = cells?.[column.index] ?? cell;
    if (now.text !== "") carried.above[column.index] = now;
  }
  return { row: raw.row, raw, cells: cells ?? raw.cells, dittos: dittos ?? NO_DITTOS };
}

function mayBeDitto(text: string): boolean {
  const first = text.charCodeAt(0);
  return text.length <= 12 && !(first >= 48 && first <= 57);
}

function own(record: Readonly<Record<string, string>>, key: string): string | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}

function pad(cells: Cell[], index: number): void {
  while (cells.length <= index) cells.push({ text: "", kind: "blank", value: null });
}
