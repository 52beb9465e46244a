import { batchesFrom } from "#db/queries/batches";
import { fileById } from "#db/queries/files";
import { lockSite } from "#db/queries/ledger";
import type { Changes } from "#db/queries/recorded";
import { factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { type Act, type Corridor, type Nothing, record } from "./record";
import { refuel } from "./refuel";
import { resum } from "./resum";
import { takeBack } from "./takeBack";

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
  const touched = (await batchesFrom(tx, file)).filter((row) => row.site === site).map(({ batch }) => batch);
  const { batches, revisions, days, fuel } = await takeBack(tx, site, file, [...new Set(touched)]);
  const facts = (await factsOf(tx, [site], EVERYTHING)).filter((fact) => fact.site === site);
  const spans = fuel.length === 0 ? {} : await refuel(tx, site, new Map(fuel.map((entry) => [entry.id, entry])), facts);
  return { batchRevisions: revisions, fuelEntries: fuel, ...(await resum(tx, site, days, batches, facts)), ...spans };
}
