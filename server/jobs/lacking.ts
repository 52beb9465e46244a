import { batchesOn, type KnownBatch } from "#db/queries/batches";
import { batchesSpokenOf } from "#db/queries/rows";
import type { Tx } from "#db/store";
import { dayNumber, daysBetween } from "#server/terms/days";

const EVERYTHING = Number.MAX_SAFE_INTEGER;
/** Of a log that leaves out more days on end than these, the days between are not its own. */
const SPAN_DAYS = 400;
/** So many days are looked at with one question. */
const DAYS_AT_ONCE = 100;

/** What a part of a log brought of a site: the days of its loads, and the files of which something came again. */
export interface Brought {
  readonly site: number;
  readonly days: readonly string[];
  readonly again: readonly string[];
}

/**
 * Batches of days that a log in parts has nothing of, though it has days before and after, as far as a log brought them
 * of which something did come again in some part. With those of the parts' own days they are what vanished of it.
 */
export async function lackingBetween(
  tx: Tx,
  site: number,
  file: string,
  brought: readonly Brought[],
): Promise<KnownBatch[]> {
  const own = brought.filter((one) => one.site === site);
  const again = new Set(own.flatMap((one) => one.again));
  if (again.size === 0) return [];
  const days = daysLeftOut([...new Set(own.flatMap((one) => one.days))].sort());
  const lacking: KnownBatch[] = [];
  for (let from = 0; from < days.length; from += DAYS_AT_ONCE) {
    const there = await batchesOn(tx, site, days.slice(from, from + DAYS_AT_ONCE), [], EVERYTHING);
    const left = there.filter((one) => one.file !== null && again.has(one.file));
    const ids = left.map(({ batch }) => batch.id);
    const spoken = ids.length === 0 ? new Set() : await batchesSpokenOf(tx, file, ids);
    for (const one of left) if (!spoken.has(one.batch.id)) lacking.push(one);
  }
  return lacking;
}

/** The days between those of a list in order that are not in it. */
function daysLeftOut(days: readonly string[]): string[] {
  return days.flatMap((day, at) => {
    const next = days[at + 1];
    if (next === undefined || dayNumber(next) - dayNumber(day) > SPAN_DAYS) return [];
    return daysBetween(day, next).slice(1, -1);
  });
}
