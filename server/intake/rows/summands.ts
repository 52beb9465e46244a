import type { FuelWritten } from "#server/terms/fuel";
import type { Meaning } from "#server/terms/row";
import type { Column } from "../columns/column";
import type { TableAtHand } from "./table";

/** What a row says in one column that a log adds up. */
export interface Summand {
  readonly column: Column;
  readonly meaning: Meaning;
  readonly value: number;
}

/** Adds what a column says to the list, when both are there. */
export function note(found: Summand[], column: Column | undefined, value: number | null | undefined): void {
  if (column?.meaning != null && value != null) found.push({ column, meaning: column.meaning, value });
}

/** The column of a statement of fuel. */
export function fuelColumn(table: TableAtHand, { column: name }: FuelWritten): Column | undefined {
  for (const column of table.fuels) if (column.column === name) return column;
  return undefined;
}
