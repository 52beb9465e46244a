import type { BatchWritten } from "#server/terms/batch";
import type { FuelWritten } from "#server/terms/fuel";
import type { RowOnGrid } from "#server/terms/row";
import { isAbsent } from "../values/words";
import { cellsSealed } from "./aside";
import type { Reasons } from "./reasons";
import type { RowAtHand, TableAtHand } from "./table";

interface Finished {
  readonly table: TableAtHand;
  readonly row: RowAtHand;
  readonly site: string | null;
  readonly batch: BatchWritten | null;
  readonly driedOnly: boolean;
  readonly fuel: readonly FuelWritten[];
  readonly day: string | null;
  readonly reasons: Reasons;
}

const NO_FUEL: RowOnGrid["fuel"] = [];

/** The row with what remains to be said of it; held if any reason holds it, else counted. */
export function finished({ table, row, site, batch, driedOnly, fuel, day, reasons }: Finished): RowOnGrid {
  const { raw } = row;
  for (const column of table.holding) {
    const { text } = raw.at(column.index);
    if (!isAbsent(text.trim())) reasons.add("column-unclear", column, [], column.heading);
  }
  if (isShifted(table, row)) reasons.add("row-too-wide", null);
  for (const column of row.dittos) reasons.add("repeated-by-ditto", column);
  if (batch !== null) sayWhatIsMissing(table, batch, driedOnly, reasons);
  return {
    sheet: table.sheet,
    row: row.row,
    fate: reasons.holdTheRow() ? "held" : "counted",
    reasons: reasons.list,
    site,
    day,
    batch,
    driedOnly,
    fuel: day === null ? NO_FUEL : fuel,
    cells: row.said,
    sealed: cellsSealed(table, raw),
  };
}

function sayWhatIsMissing(table: TableAtHand, batch: BatchWritten, driedOnly: boolean, reasons: Reasons): void {
  const freshColumn = table.byMeaning.fresh ?? null;
  const driedColumn = table.byMeaning.dried ?? null;
  const unread = reasons.speakOf("mass-") || reasons.speakOf("column-");
  if (batch.driedToCome) reasons.add("dried-to-come", driedColumn);
  else if (batch.dried === null && !unread) reasons.add("dried-missing", driedColumn);
  if (driedOnly || (batch.fresh === null && !unread)) reasons.add("fresh-missing", freshColumn);
  const timed = table.byMeaning.minutes ?? table.byMeaning.start;
  const unclear = reasons.speakOf("minutes-") || reasons.speakOf("end-before-start");
  if (timed !== undefined && batch.minutes === null && !driedOnly && !unclear) reasons.add("minutes-missing", timed);
}

/** More cells than headings in delimited text: a separator too many, unless it only broke up the words of a last remark. */
function isShifted(table: TableAtHand, row: RowAtHand): boolean {
  if (!table.delimited || row.raw.width <= table.width) return false;
  const beyond = row.raw.cells.slice(table.width).filter((cell) => cell.text.trim() !== "");
  if (beyond.length === 0) return false;
  const last = table.columns[table.width - 1]?.meaning;
  return last !== "remarks" || beyond.some((cell) => /\d/.test(cell.text));
}
