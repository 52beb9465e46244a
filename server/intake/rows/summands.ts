import type { BatchWritten } from "#server/terms/batch";
import type { Meaning } from "#server/terms/row";
import type { Column } from "../columns/column";
import type { FuelSaid } from "./fuelCells";
import type { TableAtHand } from "./table";

/** What a row says in one column that a log adds up. */
export interface Summand {
  readonly column: Column;
  readonly meaning: Meaning;
  readonly value: number;
}

/** What a batch and the fuel beside it add to the sums of their columns. */
export function summandsOf(table: TableAtHand, batch: BatchWritten | null, fuel: readonly FuelSaid[]): Summand[] {
  const found: Summand[] = [];
  if (batch !== null) {
    note(found, table.byMeaning.get("fresh"), batch.fresh?.value);
    note(found, table.byMeaning.get("dried"), batch.dried?.value);
    note(found, table.byMeaning.get("loads"), batch.loads);
    note(found, table.byMeaning.get("minutes"), batch.minutes?.value);
  }
  for (const { column, said } of fuel) {
    if (said.kind === "amount") note(found, columnOf(table, column), said.amount.value);
  }
  return found;
}

/** Adds what a column says to the list, when both are there. */
export function note(found: Summand[], column: Column | undefined, value: number | null | undefined): void {
  if (column?.meaning != null && value != null) found.push({ column, meaning: column.meaning, value });
}

function columnOf(table: TableAtHand, name: string): Column | undefined {
  return table.fuels.find(({ column }) => column === name);
}
