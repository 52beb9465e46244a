import type { KnownBatch } from "#db/queries/batches";
import type { FuelEntry } from "#db/queries/fuel";
import { batchesSpokenOf } from "#db/queries/rows";
import type { Tx } from "#db/store";
import { canonical } from "#server/evidence/canonical";
import type { Brought } from "./lacking";
import type { Decided } from "./matchSite";
import type { BatchPlan } from "./planBatches";
import { NOT_BEFORE, type SpokenBefore, spokenBefore, spokenByRows } from "./spokenBefore";

export const NO_BATCHES: ReadonlySet<string> = new Set();

/** Which batches other parts of a file spoke of: no further row of it is one of them. */
export async function spokenOfElsewhere(
  tx: Tx,
  file: string,
  near: readonly KnownBatch[],
  { inParts, spoken, before }: Decided,
): Promise<Pick<ReadonlySet<string>, "has">> {
  if (inParts !== true) return NO_BATCHES;
  const ids = near.map(({ batch }) => batch.id);
  return before?.elsewhere ?? spoken ?? batchesSpokenOf(tx, file, ids);
}

/** What rows of a file said when it was last counted: all of them, or those of this part. */
export async function saidBefore(
  tx: Tx,
  site: number,
  file: string,
  near: readonly KnownBatch[],
  { inParts, before }: Decided,
): Promise<SpokenBefore> {
  if (inParts !== true) return spokenBefore(tx, site, file, near);
  const links = before?.links.filter((link) => link.site === site) ?? [];
  return links.length === 0 ? NOT_BEFORE : spokenByRows(tx, file, links, near);
}

/** Of batches to be withdrawn those of some days. */
export function ofDays(
  ids: ReadonlySet<string>,
  known: readonly KnownBatch[],
  days: readonly string[],
): ReadonlySet<string> {
  const own = new Set(days);
  return new Set(known.flatMap(({ batch: { id, day } }) => (ids.has(id) && own.has(day) ? [id] : [])));
}

/**
 * The entries that rows may speak of. Those that another part of the same file brought are none of them: of entries
 * without a load, or of a batch of which other parts speak as well, just what the rows of this one said before.
 */
export function fuelOfThese(
  known: readonly FuelEntry[],
  file: string,
  { inParts, before }: Decided,
): readonly FuelEntry[] {
  if (inParts !== true) return known;
  const said = before?.fuel.map(lineOf) ?? [];
  return known.filter((entry) => {
    const isOwn = before !== undefined && entry.batch !== null && !before.elsewhere.has(entry.batch);
    if (entry.file !== file || isOwn) return true;
    const place = said.indexOf(lineOf(entry));
    if (place >= 0) said.splice(place, 1);
    return place >= 0;
  });
}

function lineOf({ day, fuel, said }: Pick<FuelEntry, "day" | "fuel" | "said">): string {
  return `${day} ${fuel} ${canonical(said)}`;
}

/** What vanished of the own days alone. */
export function withoutBetween(plan: BatchPlan, known: readonly KnownBatch[], { days }: Brought): BatchPlan {
  const own = new Set(days);
  const ofOwn = new Set(known.flatMap(({ batch }) => (own.has(batch.day) ? [batch.id] : [])));
  return { ...plan, vanished: plan.vanished.filter((id) => ofOwn.has(id)) };
}
