import { batchesFrom, batchOf, revisionOf, revisionsOf } from "#db/queries/batches";
import { fileById } from "#db/queries/files";
import { fuelHistory } from "#db/queries/fuel";
import { lockSite } from "#db/queries/ledger";
import type { Changes } from "#db/queries/recorded";
import { factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import type { Batch } from "#server/terms/batch";
import { type Act, type Corridor, type Nothing, record } from "./record";
import { refuel } from "./refuel";
import { resum } from "./resum";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/**
 * Takes a log back: what it alone brought is withdrawn, what it changed is again as before. Nothing is removed; the same
 * bytes may be sent again. Answers false when it was withdrawn already.
 */
export async function withdraw(corridor: Corridor, file: string, reason: string): Promise<boolean> {
  return record(corridor, async (tx): Promise<Act<boolean> | Nothing<boolean>> => {
    const now = await fileById(tx, file);
    if (now === undefined) throw new Error(`file ${file} is not here`);
    if (now.state === "withdrawn") return { nothing: false };
    const touched = await batchesFrom(tx, file);
    const sites = [...new Set(touched.map(({ site }) => site))].sort((a, b) => a - b);
    for (const site of sites.length === 0 ? [now.file.site ?? 0] : sites) await lockSite(tx, site);
    const parts: Changes[] = [];
    for (const site of sites) parts.push(await withoutFile(tx, site, file));
    const gather = <K extends keyof Changes>(name: K) => parts.flatMap((part) => [...(part[name] ?? [])]);
    const state = { file, site: now.file.site, state: "withdrawn", detail: { reason } };
    return {
      command: "withdraw",
      site: now.file.site,
      about: { file },
      changes: {
        fileStates: [state],
        batchRevisions: gather("batchRevisions") as NonNullable<Changes["batchRevisions"]>[number][],
        fuelEntries: gather("fuelEntries") as NonNullable<Changes["fuelEntries"]>[number][],
        daySums: gather("daySums") as NonNullable<Changes["daySums"]>[number][],
        monthSums: gather("monthSums") as NonNullable<Changes["monthSums"]>[number][],
        fuelSpans: gather("fuelSpans") as NonNullable<Changes["fuelSpans"]>[number][],
      },
      answer: () => true,
    };
  });
}

async function withoutFile(tx: Tx, site: number, file: string): Promise<Changes> {
  const ids = [...new Set((await batchesFrom(tx, file)).filter((row) => row.site === site).map(({ batch }) => batch))];
  const histories = groups(await revisionsOf(tx, ids, EVERYTHING), ({ batch }) => batch);
  const facts = (await factsOf(tx, [site], EVERYTHING)).filter((fact) => fact.site === site);
  const revised = new Map<string, Batch | null>();
  const revisions: ReturnType<typeof revisionOf>[] = [];
  const days = new Set<string>();
  for (const [id, history] of histories) {
    const last = history.at(-1);
    if (last === undefined || last.file !== file || last.withdrawn) continue;
    const before = history.findLast((row) => row.file !== file);
    const stands = before !== undefined && !before.withdrawn;
    const batch = batchOf(stands ? before : last);
    revised.set(id, stands ? batch : null);
    revisions.push(revisionOf(batch, { file: stands ? before.file : file, withdrawn: !stands, reason: "withdrawn" }));
    days.add(last.day);
    days.add(batch.day);
  }
  const entries = [...groups(await fuelHistory(tx, site, file), ({ id }) => id).values()].flatMap((history) => {
    const last = history.at(-1);
    if (last === undefined || last.file !== file || last.withdrawn) return [];
    const before = history.findLast((entry) => entry.file !== file);
    return [before === undefined || before.withdrawn ? { ...last, withdrawn: true } : before];
  });
  const spans =
    entries.length === 0 ? {} : await refuel(tx, site, new Map(entries.map((entry) => [entry.id, entry])), facts);
  return {
    batchRevisions: revisions,
    fuelEntries: entries,
    ...(await resum(tx, site, days, revised, facts)),
    ...spans,
  };
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
