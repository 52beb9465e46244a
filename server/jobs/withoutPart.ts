import { logsThatJoined } from "#db/queries/joinedSets";
import type { Changes } from "#db/queries/recorded";
import type { Tx } from "#db/store";
import type { Fact } from "#server/terms/facts";
import type { PartLeft } from "./partsLeft";
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

/** Throws JoinedElsewhere where a person joined some loads of a log to a dried weight of another. */
export async function noneJoinedElsewhere(tx: Tx, file: string, batches: readonly string[]): Promise<void> {
  const [joined] = batches.length === 0 ? [] : await logsThatJoined(tx, file, batches);
  if (joined !== undefined) throw new JoinedElsewhere(joined);
}

/** What sites are without what a file said of some loads and of fuel. */
export async function withoutPart(
  tx: Tx,
  file: string,
  part: readonly PartLeft[],
  facts: readonly Fact[],
): Promise<Changes> {
  const parts: Changes[] = [];
  for (const { site, batches: touched, fuel: ids } of part) {
    const own = facts.filter((fact) => fact.site === site);
    const { batches, revisions, days, fuel, waiting } = await takeBack(tx, site, file, touched, facts, { ids });
    const spans = fuel.length === 0 ? {} : await refuel(tx, site, new Map(fuel.map((entry) => [entry.id, entry])), own);
    const sums = await resum(tx, site, days, batches, own);
    const rows = waiting.map(waitingAgain);
    parts.push({ rows, batchRevisions: revisions, fuelEntries: fuel, ...sums, ...spans });
  }
  return {
    rows: parts.flatMap(({ rows = [] }) => [...rows]),
    batchRevisions: parts.flatMap(({ batchRevisions = [] }) => [...batchRevisions]),
    fuelEntries: parts.flatMap(({ fuelEntries = [] }) => [...fuelEntries]),
    daySums: parts.flatMap(({ daySums = [] }) => [...daySums]),
    monthSums: parts.flatMap(({ monthSums = [] }) => [...monthSums]),
    fuelSpans: parts.flatMap(({ fuelSpans = [] }) => [...fuelSpans]),
  };
}
