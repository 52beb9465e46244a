import { batchesFrom } from "#db/queries/batches";
import { fileById } from "#db/queries/files";
import { logsThatJoined } from "#db/queries/joinedSets";
import type { Changes } from "#db/queries/recorded";
import { lastSayings } from "#db/queries/sayings";
import { factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { lockedSites } from "./lockedSites";
import { type Act, type Corridor, type Nothing, record } from "./record";
import { refuel } from "./refuel";
import { resum } from "./resum";
import { takeBack } from "./takeBack";
import { waitingAgain } from "./waitingAgain";

/** Loads of a log count in another one, which has their dried weight; that must be taken back first. */
export class JoinedElsewhere extends Error {
  readonly file: string;

  constructor(file: string) {
    super(`loads of it were joined in ${file}`);
    this.file = file;
  }
}

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/**
 * Takes a log back: what it alone told is withdrawn; of what others tell too, what they tell remains. Nothing is removed;
 * the same bytes may be sent again. Answers false when it was withdrawn already. Throws JoinedElsewhere where a person
 * joined loads of it to a dried weight of another log.
 */
export async function withdraw(corridor: Corridor, file: string, reason: string): Promise<boolean> {
  return record(corridor, async (tx): Promise<Act<boolean> | Nothing<boolean>> => {
    const owner = (await fileById(tx, file))?.file.site;
    if (owner === undefined) throw new Error(`file ${file} is not here`);
    const sites = await lockedSites(tx, owner);
    if ((await fileById(tx, file))?.state === "withdrawn") return { nothing: false };
    const own = await batchesFrom(tx, file);
    const [joined] = await logsThatJoined(tx, [...new Set(own.map(({ batch }) => batch))], file);
    if (joined !== undefined) throw new JoinedElsewhere(joined);
    const parts: Changes[] = [];
    for (const { id } of sites) parts.push(await withoutFile(tx, id, file));
    const gather = <K extends keyof Changes>(name: K) => parts.flatMap((part) => [...(part[name] ?? [])]);
    const state = { file, site: owner, state: "withdrawn", detail: { reason } };
    return {
      command: "withdraw",
      site: owner,
      about: { file },
      changes: {
        fileStates: [state],
        rows: gather("rows") as NonNullable<Changes["rows"]>[number][],
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
  const brought = (await batchesFrom(tx, file)).filter((row) => row.site === site);
  const said = await lastSayings(tx, site, file);
  const touched = [...new Set([...brought, ...said].map(({ batch }) => batch))];
  const all = await factsOf(tx, [site], EVERYTHING);
  const facts = all.filter((fact) => fact.site === site);
  const { batches, revisions, days, fuel, waiting } = await takeBack(tx, site, file, touched, all);
  const spans = fuel.length === 0 ? {} : await refuel(tx, site, new Map(fuel.map((entry) => [entry.id, entry])), facts);
  const sums = await resum(tx, site, days, batches, facts);
  return {
    rows: waiting.map(waitingAgain),
    batchRevisions: revisions,
    fuelEntries: fuel,
    ...sums,
    ...spans,
  };
}
