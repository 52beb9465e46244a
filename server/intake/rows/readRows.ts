import { type GridRow, isBlank, type Sheet } from "#server/terms/grid";
import type { ProblemCode } from "#server/terms/problem";
import type { RowOnGrid, TotalCheck } from "#server/terms/row";
import type { SoFar } from "#server/terms/soFar";
import type { FoundTable } from "../columns/findTables";
import { asideRow, sealAll } from "./aside";
import { lookUp } from "./lookUp";
import { readTableRow } from "./readTableRow";
import { newCarried, type TableAtHand } from "./table";
import { Totals } from "./totals";

/** A table with what its columns mean. */
export interface TableToRead {
  readonly found: FoundTable;
  readonly table: TableAtHand;
}

/** So many rows at a time are told to whoever waits. */
const TOLD_AFTER = 1_000;

/**
 * Every row of a sheet with its one fate, in the order of the sheet; `told` learns of every thousand rows. Where the
 * sheet is one part of a log, its table goes on from `before`, and what it leaves for the next part is `soFar`.
 */
export function readRows(
  sheet: Sheet,
  tables: readonly TableToRead[],
  told?: (rows: number) => void,
  before?: SoFar,
): { rows: RowOnGrid[]; totals: TotalCheck[]; soFar: SoFar | null } {
  const rows: RowOnGrid[] = [];
  const totals: TotalCheck[] = [];
  let soFar: SoFar | null = null;
  let at = 0;
  for (const { found, table } of tables) {
    const headingFrom = found.headingAt[0] ?? found.from;
    for (; at < headingFrom; at++) push(outside(sheet.name, sheet.rows[at], "before-the-table"));
    for (; at < found.from; at++)
      push(outside(sheet.name, sheet.rows[at], at === found.unitsAt ? "units-row" : "heading-row"));
    const carried = { ...newCarried(), ...before?.carried };
    const sums = new Totals(before?.sums);
    const looks = lookUp(table, sheet.rows, found);
    for (; at < found.to; at++) {
      const raw = sheet.rows[at];
      if (raw === undefined) continue;
      if (found.repeatsAt.has(at)) push(outside(sheet.name, raw, "heading-row"));
      else push(readTableRow(table, looks(at), carried, sums, totals));
    }
    tailAfter(rows);
    soFar = { carried, sums: sums.soFar() };
  }
  const code = tables.length === 0 ? (sheet.hidden ? "hidden-sheet" : "no-table-in-sheet") : "after-the-table";
  for (; at < sheet.rows.length; at++) push(outside(sheet.name, sheet.rows[at], code));
  return { rows, totals, soFar };

  function push(row: RowOnGrid | null): void {
    if (row === null) return;
    rows.push(row);
    if (rows.length % TOLD_AFTER === 0) told?.(TOLD_AFTER);
  }
}

function outside(sheet: string, row: GridRow | undefined, code: ProblemCode): RowOnGrid | null {
  if (row === undefined) return null;
  return asideRow(sheet, row, isBlank(row) ? "blank-row" : code, sealAll(row, null));
}

/** Notes below the last row with a value stand after the table. */
function tailAfter(rows: RowOnGrid[]): void {
  for (let at = rows.length - 1; at >= 0; at--) {
    const row = rows[at];
    const [reason] = row?.reasons ?? [];
    if (row === undefined || row.fate !== "set-aside" || reason === undefined) return;
    if (reason.code === "note-row") rows[at] = { ...row, reasons: [{ ...reason, code: "after-the-table" }] };
    else if (reason.code !== "blank-row") return;
  }
}
