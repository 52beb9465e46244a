import { type Dialect, eachRecord } from "./records";

/** Where a text may be cut, and how many records stand before. */
export interface Cut {
  readonly at: number;
  readonly records: number;
}

/**
 * Where to cut the beginning of a text so that about `most` records stand before; null when it has not that many.
 *
 * Cut between two records that differ in one of the columns `kept`, if there is such a place in the second half, so
 * that what belongs together (a site's day) stays together. A record that begins within `reach` of the end may go on
 * beyond the text and is not looked at; 0 where the text ends there.
 */
export function cutAfter(
  text: string,
  dialect: Dialect,
  most: number,
  kept: readonly number[],
  reach: number,
): Cut | null {
  let count = 0;
  let before: readonly string[] = [];
  let change: Cut | null = null;
  let cut: Cut | null = null;
  eachRecord(text, dialect, ({ cells, from }) => {
    if (from > text.length - reach) return false;
    if (kept.some((column) => cells[column] !== before[column])) change = { at: from, records: count };
    before = cells;
    if (count === most) cut = { at: from, records: count };
    count++;
    return cut === null;
  });
  const better: Cut | null = change;
  return cut !== null && better !== null && keeps(better, most) ? better : cut;
}

function keeps({ records }: Cut, most: number): boolean {
  return records > most / 2;
}

/** How many records a text has. */
export function countRecords(text: string, dialect: Dialect): number {
  let count = 0;
  eachRecord(text, dialect, () => ++count > 0);
  return count;
}
