import { batchOf, revisionOf, revisionsOf } from "#db/queries/batches";
import { type FuelEntry, fuelHistory } from "#db/queries/fuel";
import type { Tx } from "#db/store";
import type { Batch } from "#server/terms/batch";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** What taking back leaves: of each batch the one before, or null where there is none left. */
export interface TakenBack {
  readonly batches: ReadonlyMap<string, Batch | null>;
  readonly revisions: readonly ReturnType<typeof revisionOf>[];
  readonly days: ReadonlySet<string>;
  readonly fuel: readonly FuelEntry[];
}

/** Takes back what a file said of some batches: each is again as the last other file left it, or withdrawn. */
export async function takeBack(tx: Tx, site: number, file: string, ids: readonly string[]): Promise<TakenBack> {
  const batches = new Map<string, Batch | null>();
  const revisions: ReturnType<typeof revisionOf>[] = [];
  const days = new Set<string>();
  for (const [id, history] of groups(await revisionsOf(tx, ids, EVERYTHING), ({ batch }) => batch)) {
    const last = history.at(-1);
    if (last === undefined || last.file !== file || last.withdrawn) continue;
    const before = history.findLast((row) => row.file !== file);
    const stands = before !== undefined && !before.withdrawn;
    const batch = batchOf(stands ? before : last);
    batches.set(id, stands ? batch : null);
    revisions.push(revisionOf(batch, { file: stands ? before.file : file, withdrawn: !stands, reason: "withdrawn" }));
    days.add(last.day).add(batch.day);
  }
  return { batches, revisions, days, fuel: await fuelBefore(tx, site, file) };
}

/** Fuel entries that a file wrote last, as they were before it, or withdrawn. */
async function fuelBefore(tx: Tx, site: number, file: string): Promise<FuelEntry[]> {
  return [...groups(await fuelHistory(tx, site, file), ({ id }) => id).values()].flatMap((history) => {
    const last = history.at(-1);
    if (last === undefined || last.file !== file || last.withdrawn) return [];
    const before = history.findLast((entry) => entry.file !== file);
    return [before === undefined || before.withdrawn ? { ...last, withdrawn: true } : before];
  });
}

function groups<T>(all: readonly T[], key: (one: T) => string): Map<string, T[]> {
  const found = new Map<string, T[]>();
  for (const one of all) {
    const group = found.get(key(one));
    if (group === undefined) found.set(key(one), [one]);
    else group.push(one);
  }
  return found;
}
