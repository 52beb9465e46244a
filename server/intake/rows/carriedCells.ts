import { textAt } from "./otherCells";
import type { Carried, RowAtHand, TableAtHand } from "./table";

/** Code or name of the site; written once, it holds for the rows below. Null in a file without a site column. */
export function siteOf(table: TableAtHand, row: RowAtHand, carried: Carried): string | null {
  const column = table.byMeaning.site;
  if (column === undefined) return null;
  const text = textAt(table, row, column);
  if (text !== null) carried.site = text;
  return carried.site;
}

/** The kind of fuel as written; written once, it holds for the rows below. */
export function typeOfFuel(table: TableAtHand, row: RowAtHand, carried: Carried): string | null {
  const text = textAt(table, row, table.byMeaning["fuel-type"]);
  if (text !== null) carried.fuelType = text;
  return carried.fuelType;
}
