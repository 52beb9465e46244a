import { asPerson } from "#db/asPerson";
import { fileById } from "#db/queries/files";
import { fuelLeft, type LoadLeft, loadsLeft, loadsOfFile, loadsTaken, statesTakenBack } from "#db/queries/left";
import { factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { lockedSites } from "./lockedSites";
import { type PartLeft, partsLeft } from "./partsLeft";
import { type Corridor, record } from "./record";
import { reasonOf, type SoFar, soFarOf } from "./saidOfFiles";
import { turnForOthers } from "./turnForOthers";
import { aside, goOn, workAtHand } from "./underWay";
import { noneJoinedElsewhere, withoutPart } from "./withoutPart";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** Of so many loads it is asked at once what is left of them. */
const ASKED_AT_ONCE = 2_500;

interface Begun extends SoFar {
  /** the record in which it began */
  readonly since: number;
  readonly reason: string;
}

/**
 * Takes back what is left of a log that is marked so, part by part, with a turn for others after each. Two who do it at
 * once take nothing back twice: what the other has taken is left out. Throws Stopped between two parts, and
 * JoinedElsewhere where a person joined loads of it to a dried weight of another log meanwhile.
 */
export async function withdrawParts(corridor: Corridor, file: string): Promise<void> {
  const [soFar, owner] = await asPerson(corridor, async (tx) => [
    await begunOf(tx, file),
    (await fileById(tx, file))?.file.site ?? null,
  ]);
  if (soFar === null) return;
  const work = workAtHand();
  const tell = (far: SoFar) => goOn({ step: "storing", rows: far.loads, ofRows: far.of, inParts: true }, work);
  tell(soFar);
  const loads = await loadsStillThere(corridor, file, soFar);
  const fuel = await asPerson(corridor, (tx) => fuelLeft(tx, file));
  for (const part of partsLeft(loads, fuel)) {
    const now = await aside(() => withdrawPart(corridor, file, owner, part));
    if (now === null) return;
    tell(now);
    await turnForOthers();
  }
  await aside(() => conclude(corridor, file, owner));
}

/**
 * What is left of the loads of a log. Nothing is counted of it any more, so it only becomes less; asked for bit by bit, it
 * lets others in between.
 */
async function loadsStillThere(corridor: Corridor, file: string, { since }: Begun): Promise<LoadLeft[]> {
  const all = await asPerson(corridor, (tx) => loadsOfFile(tx, file));
  const left: LoadLeft[] = [];
  for (let from = 0; from < all.length; from += ASKED_AT_ONCE) {
    const some = all.slice(from, from + ASKED_AT_ONCE);
    for (const load of await asPerson(corridor, (tx) => loadsLeft(tx, file, since, some))) left.push(load);
    await turnForOthers();
  }
  return left;
}

/** How far taking a log back came; null where it did not begin, or is done. */
async function begunOf(tx: Tx, file: string): Promise<Begun | null> {
  const states = await statesTakenBack(tx, file);
  const [first] = states;
  const soFar = soFarOf(states.at(-1)?.detail);
  return first === undefined || soFar === null
    ? null
    : { ...soFar, since: first.ledgerIndex, reason: reasonOf(first.detail) ?? "" };
}

/** Takes one part back, as far as nobody has; null where all of the log is taken back. */
async function withdrawPart(
  corridor: Corridor,
  file: string,
  owner: number | null,
  part: readonly PartLeft[],
): Promise<SoFar | null> {
  return record<SoFar | null>(corridor, async (tx) => {
    const sites = await lockedSites(tx, owner);
    const begun = await begunOf(tx, file);
    if (begun === null) return { nothing: null };
    const { since, reason, loads, of } = begun;
    const all = part.flatMap(({ batches }) => batches);
    const taken = await loadsTaken(tx, file, since, all);
    const still = part.map((one) => ({ ...one, batches: one.batches.filter((batch) => !taken.has(batch)) }));
    const ids = still.flatMap(({ batches }) => batches);
    await noneJoinedElsewhere(tx, file, ids);
    const facts = await factsOf(
      tx,
      sites.map(({ id }) => id),
      EVERYTHING,
    );
    const changes = await withoutPart(tx, file, still, facts);
    const isNothing = Object.values(changes).every((added) => added === undefined || added.length === 0);
    if (isNothing) return { nothing: { loads, of } };
    const soFar: SoFar = { loads: loads + ids.length, of };
    return {
      command: "withdraw",
      site: owner,
      about: { file },
      changes: {
        ...changes,
        fileStates: [{ file, site: owner, state: "withdrawn", detail: { reason, soFar } }],
      },
      answer: () => soFar,
    };
  });
}

/** The last record of a log that was taken back in parts. */
async function conclude(corridor: Corridor, file: string, owner: number | null): Promise<void> {
  await record<null>(corridor, async (tx) => {
    await lockedSites(tx, owner);
    const begun = await begunOf(tx, file);
    if (begun === null) return { nothing: null };
    const detail = { reason: begun.reason };
    return {
      command: "withdraw",
      site: owner,
      about: { file },
      changes: { fileStates: [{ file, site: owner, state: "withdrawn", detail }] },
      answer: () => null,
    };
  });
}
