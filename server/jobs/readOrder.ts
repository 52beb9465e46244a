import { faultsOf } from "#server/intake/faults/faultsOf";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { readLog } from "#server/intake/readLog";
import { outcomesOf } from "#server/intake/settle/outcomes";
import { type Fault, faultKey } from "#server/terms/fault";
import type { Hints, ReadingOnGrid, Unreadable } from "#server/terms/row";
import type { ReadOrder } from "./readBytes";

/** What the one sheet of a text file is called. Not after the file, whose name may name a person. */
const TEXT_SHEET = "log";

/** A log with more rows is a back-file, whose sites and months each have a line of their own. */
const MOST_ROWS = 20_000;

/** Bytes to rows: what the reading thread does; `told` learns how many rows of how many. */
export function readOrder(
  { bytes, hints, bounds, look, before }: ReadOrder,
  told?: (rows: number, of: number) => void,
): ReadingOnGrid | Unreadable {
  const grid = readGrid(bytes, TEXT_SHEET, bounds);
  if (isUnreadable(grid)) return grid;
  const reading = readLog(grid, hints, told, before);
  if (look === undefined || reading.rows.length > MOST_ROWS) return reading;
  const outcomes = look === "all" ? outcomesOf(grid, reading, hints) : [];
  return { ...reading, look: { faults: faultsOpen(reading, hints), outcomes } };
}

/** The faults that nobody has answered yet. */
function faultsOpen(reading: ReadingOnGrid, hints: Hints): Fault[] {
  const answered = hints.answers?.faults ?? {};
  return faultsOf(reading, hints).filter((fault) => !Object.hasOwn(answered, faultKey(fault)));
}
