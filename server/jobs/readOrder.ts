import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { readLog } from "#server/intake/readLog";
import type { Reading, Unreadable } from "#server/terms/row";
import type { ReadOrder } from "./readBytes";

/** What the one sheet of a text file is called. Not after the file, whose name may name a person. */
const TEXT_SHEET = "log";

/** Bytes to rows: what the reading thread does, and `verify` does again. */
export function readOrder({ bytes, hints, bounds }: ReadOrder): Reading | Unreadable {
  const grid = readGrid(bytes, TEXT_SHEET, bounds);
  return isUnreadable(grid) ? grid : readLog(grid, hints);
}
