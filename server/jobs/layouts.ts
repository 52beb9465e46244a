import { asPerson } from "#db/asPerson";
import { type CountedLog, lastCounted } from "#db/queries/settled";
import { knownLayout } from "#server/intake/settle/knownLayout";
import type { KnownLayout } from "#server/intake/settle/layout";
import type { Bounds, Hints, Reading } from "#server/terms/row";
import { readBytes } from "./readBytes";
import type { Corridor } from "./record";

/** So many earlier logs of a site are looked at: a month in weekly logs, and their fuel sheet. */
const MOST = 6;
/** Layouts that are kept in mind, over all sites. A counted log was counted for good, so none of them grows old. */
const KEPT = 500;
const mind = new Map<string, KnownLayout>();

/** The layouts of the last logs of a site that count, newest first, without this one's own. */
export async function layoutsOf(
  corridor: Corridor,
  bounds: Bounds,
  site: number,
  except: string | null,
): Promise<KnownLayout[]> {
  const logs = await asPerson(corridor, (tx) => lastCounted(tx, site, except, MOST));
  const layouts: KnownLayout[] = [];
  for (const log of logs) {
    const layout = mind.get(keyOf(log)) ?? (await readAgain(corridor, bounds, log));
    if (layout !== null) layouts.push(layout);
  }
  return layouts;
}

/** Keeps in mind how a log was read that has just been counted. */
export function keepInMind(file: string, ledgerIndex: number, reading: Reading, hints: Hints): KnownLayout {
  const months = reading.rows.flatMap(({ batch }) => (batch === null ? [] : [batch.day.slice(0, 7)])).sort();
  const layout = knownLayout(file, reading, hints, months);
  const [oldest] = mind.keys();
  if (mind.size >= KEPT && oldest !== undefined) mind.delete(oldest);
  mind.set(keyOf({ file, ledgerIndex }), layout);
  return layout;
}

async function readAgain(corridor: Corridor, bounds: Bounds, log: CountedLog): Promise<KnownLayout | null> {
  const bytes = await asPerson(corridor, (tx) => corridor.store.storage.bytes(tx, log.sha256));
  if (bytes === undefined) return null;
  const reading = await readBytes({ bytes, hints: log.hints, bounds });
  return "refused" in reading ? null : keepInMind(log.file, log.ledgerIndex, reading, log.hints);
}

function keyOf({ file, ledgerIndex }: { readonly file: string; readonly ledgerIndex: number }): string {
  return `${file} ${ledgerIndex}`;
}
