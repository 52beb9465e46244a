import type { GridRow } from "#server/terms/grid";
import { plain } from "#server/terms/headings/plain";
import { unitOf } from "../values/masses";

const UNIT_LIKE = /^(?:h+ ?m+(?: ?s+)?|d+ m+ y+|m+ d+ y+|y+ m+ d+|jj mm aaaa|%|°c|c|no|hh mm)$/;

/** A row below the headings that says nothing but units: "kg", "kg", "min". */
export function isUnitsRow(row: GridRow): boolean {
  let units = 0;
  for (const cell of row.cells) {
    const words = plain(cell.text);
    if (words === "") continue;
    if (unitOf(words) === null && !UNIT_LIKE.test(words)) return false;
    units++;
  }
  return units > 0;
}
