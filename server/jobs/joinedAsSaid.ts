import { asOneSet, idsJoined } from "#server/intake/match/asOneSet";
import type { Batch, BatchWritten } from "#server/terms/batch";
import type { BatchInput } from "./planBatches";

interface Joined {
  readonly id: string;
  /** what is new of the batch; null where nothing is */
  readonly batch: Batch | null;
  /** loads in whose place it stands */
  readonly members: readonly string[];
  readonly part: "whole" | "dried";
  readonly verdict: "new" | "changed" | "same" | "joined";
}

/**
 * A dried weight that a person joined to loads which are here: to one of them, or to several as the one batch that was
 * weighed together. Where that was done before, it stays; null where nobody said so, or where the loads are not here or
 * have a dried weight.
 */
export function joinedAsSaid(
  written: BatchWritten,
  key: string,
  now: { readonly get: (id: string) => { readonly batch: Batch } | undefined },
  { are, links, newId, takenOut }: Pick<BatchInput, "are" | "links" | "newId" | "takenOut">,
): Joined | null {
  const ids = idsJoined(are[key]);
  if (ids === null) return null;
  const linked = links.get(key);
  const part = ids.length === 1 ? "dried" : "whole";
  if (linked !== undefined && takenOut.has(linked))
    return { id: linked, batch: null, members: [], part, verdict: "same" };
  const before = linked === undefined ? undefined : now.get(linked)?.batch;
  if (before !== undefined && before.dried !== null) {
    const isSame = before.dried.exact === written.dried?.exact;
    const batch = isSame ? null : { ...before, dried: written.dried };
    return { id: before.id, batch, members: [], part, verdict: isSame ? "same" : "changed" };
  }
  const loads = ids.flatMap((id) => now.get(id)?.batch ?? []);
  const [load] = loads;
  if (load === undefined || loads.length < ids.length) return null;
  if (ids.length === 1) {
    if (load.dried !== null) return null;
    const batch = { ...load, dried: written.dried, driedToCome: false };
    return { id: load.id, batch, members: [], part, verdict: "joined" };
  }
  const set = asOneSet(loads, written, newId());
  return set === null ? null : { id: set.id, batch: set, members: ids, part, verdict: "joined" };
}

/** The batch of loads that a person had joined to a dried weight; null where nobody had, or it is of one load alone. */
export function joinedBefore(
  key: string,
  { links, saidBefore }: Pick<BatchInput, "links" | "saidBefore">,
): string | null {
  const said = saidBefore.get(key);
  return said !== undefined && said.fresh === null ? null : (links.get(key) ?? null);
}
