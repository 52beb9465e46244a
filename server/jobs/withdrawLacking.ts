import type { KnownBatch, Revised } from "#db/queries/batches";
import type { FuelEntry } from "#db/queries/fuel";
import { fuelEntriesNear } from "#db/queries/fuelReach";
import type { Changes } from "#db/queries/recorded";
import type { Tx } from "#db/store";
import type { Fact } from "#server/terms/facts";
import { lackingBetween } from "./lacking";
import type { Corridor } from "./record";
import { refuel } from "./refuel";
import { resum } from "./resum";
import type { SlipPart } from "./slipPart";
import { type InParts, inOnePart } from "./storePart";
import { sumOfSlips } from "./sumOfSlips";

/** So many loads are withdrawn with one record. */
const AT_ONCE = 500;

/**
 * Withdraws loads of days that a log in parts leaves out between two of its days, as far as somebody wants it: those of
 * its own days went with their parts. Answers the sending slip of this part; null where there is nothing left of it.
 */
export async function withdrawLacking(corridor: Corridor, counted: InParts, part: number): Promise<SlipPart | null> {
  const { file, begun } = counted;
  const wanted = new Set(begun.withdraw);
  if (wanted.size === 0) return null;
  return inOnePart(corridor, counted, part, async (tx, { sites, facts, stored }) => {
    const brought = stored.flatMap((one) => one.brought ?? []);
    const all: Without[] = [];
    let withdrawn = 0;
    for (const { id } of sites) {
      const lacking = await lackingBetween(tx, id, file, brought);
      const out = lacking.filter(({ batch }) => wanted.has(batch.id)).slice(0, AT_ONCE - withdrawn);
      if (out.length > 0) all.push(await without(tx, id, file, out, facts));
      withdrawn += out.length;
    }
    if (withdrawn === 0) return null;
    const none = sumOfSlips([]);
    return {
      slip: { ...none, batches: { ...none.batches, withdrawn } },
      sealed: [],
      changes: {
        batchRevisions: all.flatMap(({ batchRevisions }) => batchRevisions),
        fuelEntries: all.flatMap(({ fuelEntries }) => fuelEntries),
        daySums: all.flatMap(({ daySums = [] }) => [...daySums]),
        monthSums: all.flatMap(({ monthSums = [] }) => [...monthSums]),
        fuelSpans: all.flatMap(({ fuelSpans = [] }) => [...fuelSpans]),
      },
    };
  });
}

interface Without extends Pick<Changes, "daySums" | "monthSums" | "fuelSpans"> {
  readonly batchRevisions: Revised[];
  readonly fuelEntries: FuelEntry[];
}

/** What a site is without some loads: their fuel goes with them. */
async function without(
  tx: Tx,
  site: number,
  file: string,
  out: readonly KnownBatch[],
  facts: readonly Fact[],
): Promise<Without> {
  const own = facts.filter((fact) => fact.site === site);
  const batches = out.map(({ batch }) => batch.id);
  const burned = await fuelEntriesNear(tx, site, { days: [], batches, file: null });
  const fuel = new Map(burned.map((entry) => [entry.id, { ...entry, file, withdrawn: true }]));
  const days = new Set(out.map(({ batch }) => batch.day));
  return {
    batchRevisions: out.map(({ batch }) => ({ batch, file, withdrawn: true, reason: "not-sent-again" })),
    fuelEntries: [...fuel.values()],
    ...(await resum(tx, site, days, new Map(batches.map((id) => [id, null])), own)),
    ...(fuel.size === 0 ? {} : await refuel(tx, site, fuel, own)),
  };
}
