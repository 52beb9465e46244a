import type { RowRead } from "#server/terms/row";
import { keyOf } from "./planBatches";
import type { Corridor } from "./record";

/** Logs of more rows go part by part, so that nobody waits behind a whole one. */
export const ROWS_AT_ONCE = 2_000;
/** A part keeps the thread that answers pages, and the embedded database with it: counted again, a row takes twice as long. */
const ROWS_A_PART = { embedded: { first: 300, again: 150 }, postgres: { first: 500, again: 300 } } as const;
/** Of logs that were begun before the number was kept with them. */
const WHERE_NONE_IS_KEPT = 500;
/** Stands after every day: dried weights look for their loads once all loads are stored. */
const LAST = "~";

/** How many rows a part has. Kept with a log of which parts are stored, so that another number finds the same parts again. */
export function rowsAPart({ store }: Corridor, again: boolean): number {
  return ROWS_A_PART[store.kind][again ? "again" : "first"];
}

/**
 * The rows of a log that was read whole, in parts of about so many that are stored one after another: the rows of a day
 * stay together, loads weighed together with the row that has their weight, in the order of days; rows that bring only
 * a dried weight come last. Every row is in one part.
 */
export function dayParts(rows: readonly RowRead[], most = WHERE_NONE_IS_KEPT): RowRead[][] {
  const days = new Map(rows.flatMap((row) => (row.batch === null ? [] : [[keyOf(row), row.batch.day] as const])));
  const groups = new Map<string, RowRead[]>();
  let before = "";
  for (const row of rows) {
    const own = row.countsWith === undefined ? row.batch?.day : days.get(keyOf(row.countsWith));
    const day = own ?? row.day ?? before;
    before = day;
    const key = row.driedOnly ? LAST : day;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  const parts: RowRead[][] = [];
  let part: RowRead[] = [];
  for (const [key, group] of [...groups].sort(([a], [b]) => (a < b ? -1 : 1))) {
    if (part.length > 0 && (part.length + group.length > most || key === LAST)) {
      parts.push(part);
      part = [];
    }
    if (key === LAST) for (let from = 0; from < group.length; from += most) parts.push(group.slice(from, from + most));
    else for (const row of group) part.push(row);
  }
  return part.length === 0 ? parts : [...parts, part];
}
