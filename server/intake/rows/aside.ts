import type { GridRow } from "#server/terms/grid";
import { columnName } from "#server/terms/grid";
import type { ProblemCode } from "#server/terms/problem";
import type { RowOnGrid, SealedCell } from "#server/terms/row";
import type { TableAtHand } from "./table";

/** A row that is no batch, with its reason; what it says goes to the sealed store. */
export function asideRow(sheet: string, row: GridRow, code: ProblemCode, sealed: readonly SealedCell[]): RowOnGrid {
  return {
    sheet,
    row: row.row,
    fate: "set-aside",
    reasons: [{ code, at: { sheet, row: row.row, column: null }, text: "" }],
    site: null,
    day: null,
    batch: null,
    driedOnly: false,
    fuel: [],
    cells: [],
    sealed,
  };
}

/** All cells of a row that say something, for the sealed store. */
export function sealAll(row: GridRow, table: TableAtHand | null): SealedCell[] {
  return row.cells.flatMap(({ kind, text }, index) =>
    kind === "blank" ? [] : [{ column: columnName(index), heading: table?.columns[index]?.heading ?? "", text }],
  );
}

const NONE: readonly SealedCell[] = [];

/** The cells of a row that may name a person or were not understood. */
export function cellsSealed(table: TableAtHand, row: GridRow): readonly SealedCell[] {
  let sealed: SealedCell[] | null = null;
  for (const column of table.sealed) {
    const cell = row.at(column.index);
    if (cell.kind === "blank") continue;
    const kept = { column: column.column, heading: column.heading, text: cell.text };
    if (sealed === null) sealed = [kept];
    else sealed.push(kept);
  }
  for (let index = table.columns.length; index < row.width; index++) {
    const cell = row.at(index);
    if (cell.kind === "blank") continue;
    sealed ??= [];
    sealed.push({ column: columnName(index), heading: "", text: cell.text });
  }
  return sealed ?? NONE;
}
