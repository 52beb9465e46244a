import type { Sheet } from "#server/terms/grid";
import type { RowOnGrid } from "#server/terms/row";
import type { Column } from "./columns/column";
import type { FoundTable } from "./columns/findTables";
import type { DayText } from "./values/days";
import type { Remembered } from "./values/remembered";

/** A table of a sheet with what its columns were taken for. */
export interface Recognised {
  readonly sheet: Sheet;
  readonly found: FoundTable;
  readonly columns: readonly Column[];
  /** what the cells of its column of days write */
  readonly dayTexts: Remembered<DayText>;
}

/** What a table is called in answers: its sheet and the row of its headings. */
export function tableKey({ sheet, found }: Recognised): string {
  return `${sheet.name}!${headingRowOf(sheet, found)}`;
}

/** The row of a table's headings, as the sheet counts; 0 where it has none. */
export function headingRowOf(sheet: Sheet, { headingAt }: FoundTable): number {
  const last = headingAt[headingAt.length - 1];
  return last === undefined ? 0 : (sheet.rows[last]?.row ?? 0);
}

/** The rows of tables that a person left out say so; what stands above or below them keeps its own reason. */
export function withoutTables(rows: readonly RowOnGrid[], tables: readonly Recognised[]): readonly RowOnGrid[] {
  const within = new Set(
    tables.flatMap(({ sheet, found }) =>
      sheet.rows.slice(found.headingAt[0] ?? found.from, found.to).map(({ row }) => `${sheet.name}!${row}`),
    ),
  );
  return rows.map((row) => {
    const [reason] = row.reasons;
    if (!within.has(`${row.sheet}!${row.row}`) || reason === undefined || reason.code === "blank-row") return row;
    return { ...row, reasons: [{ ...reason, code: "set-aside-by-person" }] };
  });
}
