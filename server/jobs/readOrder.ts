import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { readLog } from "#server/intake/readLog";
import type { Reading, Unreadable } from "#server/terms/row";
import type { ReadOrder } from "./readBytes";

/** Bytes to rows: what the reading thread does, and `verify` does again. */
export function readOrder({ bytes, name, hints, bounds }: ReadOrder): Reading | Unreadable {
  const grid = readGrid(bytes, name, bounds);
  return isUnreadable(grid) ? grid : readLog(grid, hints);
}
