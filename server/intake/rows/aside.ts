import type { GridRow } from "#server/terms/grid";
import { columnName } from "#server/terms/grid";
import type { ProblemCode } from "#server/terms/problem";
import type { CellRead, RowRead, SealedCell } from "#server/terms/row";
import type { TableAtHand } from "./table";

/** A row that is no batch, with its reason; what it says goes to the sealed store. */
export function asideRow(sheet: string, row: GridRow, code: ProblemCode, sealed: readonly SealedCell[]): RowRead {
  return {
    sheet,
    row: row.row,
    fate: "set-aside",
    reasons: [{ code, at: { sheet, row: row.row, column: null }, text: "" }],
    site: null,
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

/** The cells that were read, with their raw text, and beside them those that may name a person or were not understood. */
export function cellsOf(
  table: TableAtHand,
  row: GridRow,
): { cells: readonly CellRead[]; sealed: readonly SealedCell[] } {
  const cells: CellRead[] = [];
  let sealed: SealedCell[] | null = null;
  for (let index = 0; index < row.cells.length; index++) {
    const cell = row.cells[index];
    if (cell === undefined || cell.kind === "blank") continue;
    const column = table.columns[index];
    const kept = column === undefined ? null : table.read.kept(column, cell);
    if (kept?.read) {
      cells.push(kept.read);
      continue;
    }
    sealed ??= [];
    sealed.push(kept?.sealed ?? { column: columnName(index), heading: "", text: cell.text });
  }
  return { cells, sealed: sealed ?? NONE };
}
