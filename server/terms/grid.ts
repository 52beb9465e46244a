/**
 * Cells as a file holds them, before anybody says what they mean.
 *
 * `text` is what a person sees or typed, kept as it stands (of a spreadsheet number: its shortest decimal).
 * `value` is the number behind a spreadsheet's number, day (serial of the 1900 system, whatever the workbook's own) or
 * time of day (share of a day); null in delimited text, where everything is text.
 */
export interface Cell {
  readonly text: string;
  readonly kind: "blank" | "text" | "number" | "day" | "time" | "error" | "true-false";
  readonly value: number | null;
}

/** One record or sheet row. `row` counts from 1 as the sheet shows it; rows without any cell are left out. */
export interface GridRow {
  readonly row: number;
  /** how many cells it has; those between that say nothing are among them */
  readonly width: number;
  /** all of them at once, in a new list */
  readonly cells: readonly Cell[];
  /** one of them, by its place from 0 on; BLANK beyond the last */
  at(index: number): Cell;
  /**
   * The number of a cell, from 0 on, by which a reader finds again what it made of it: in one column of a sheet, cells of
   * one number are equal. -1 for a cell that stands alone.
   */
  numberAt(index: number): number;
}

export interface Sheet {
  readonly name: string;
  readonly hidden: boolean;
  readonly rows: readonly GridRow[];
}

export interface Grid {
  readonly format: "delimited" | "xlsx";
  readonly sheets: readonly Sheet[];
  /** what had to be decided on the way: encoding, delimiter, hidden sheets */
  readonly notes: readonly { readonly code: string; readonly detail: string }[];
}

export const BLANK: Cell = { text: "", kind: "blank", value: null };

/** True when no cell of a row says anything. */
export function isBlank(row: GridRow): boolean {
  for (let index = 0; index < row.width; index++) if (row.at(index).kind !== "blank") return false;
  return true;
}

/** 0 is "A", 25 "Z", 26 "AA". */
export function columnName(index: number): string {
  let name = "";
  for (let rest = index; rest >= 0; rest = Math.floor(rest / 26) - 1)
    name = String.fromCharCode(65 + (rest % 26)) + name;
  return name;
}
