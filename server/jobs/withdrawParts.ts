import { asPerson } from "#db/asPerson";
import { fileById } from "#db/queries/files";
import {
  fuelLeft,
  fuelOfFile,
  type LoadOf,
  loadsChanged,
  loadsLeft,
  loadsSpokenOf,
  loadsTaken,
  statesTakenBack,
} from "#db/queries/left";
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

/** So many loads, or entries of fuel, are taken back with one record. */
const A_PART = { embedded: 150, postgres: 300 } as const;
/** Of so many it is asked at once what is left of them. */
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
  const loads = await loadsOfFile(corridor, file);
  const left = await bitByBit(corridor, loads, (tx, some) => loadsLeft(tx, file, soFar.since, some));
  const entries = await asPerson(corridor, (tx) => fuelOfFile(tx, file));
  const fuel = await bitByBit(corridor, entries, (tx, some) => fuelLeft(tx, file, some));
  for (const part of partsLeft(left, fuel, A_PART[corridor.store.kind])) {
    const now = await aside(() => withdrawPart(corridor, file, owner, part));
    if (now === null) return;
    tell(now);
    await turnForOthers();
  }
  await aside(() => conclude(corridor, file, owner));
}

/** All loads of a log, asked for with turns for others. */
async function loadsOfFile(corridor: Corridor, file: string): Promise<LoadOf[]> {
  const changed = await asPerson(corridor, (tx) => loadsChanged(tx, file));
  await turnForOthers();
  const spoken = await asPerson(corridor, (tx) => loadsSpokenOf(tx, file));
  await turnForOthers();
  return loadsOnce(changed, spoken);
}

/** Loads that a log changed, and others that it spoke of last. */
export function loadsOnce(changed: readonly LoadOf[], spoken: readonly LoadOf[]): LoadOf[] {
  const known = new Set(changed.map(({ batch }) => batch));
  return [...changed, ...spoken.filter(({ batch }) => !known.has(batch))];
}

export function idsOf(loads: readonly LoadOf[]): string[] {
  return loads.map(({ batch }) => batch);
}

/** Throws JoinedElsewhere where a person joined loads of a log to a dried weight of another. */
export async function noneOfAllJoined(corridor: Corridor, file: string): Promise<void> {
  const changed = await asPerson(corridor, (tx) => loadsChanged(tx, file));
  await turnForOthers();
  await bitByBit(corridor, changed, async (tx, some) => {
    await noneJoinedElsewhere(tx, file, idsOf(some));
    return [];
  });
}

/** Asks about many some at a time, with turns for others. What is taken back only becomes less meanwhile. */
async function bitByBit<T, R>(
  corridor: Corridor,
  all: readonly T[],
  ask: (tx: Tx, some: readonly T[]) => Promise<R[]>,
): Promise<R[]> {
  const found: R[] = [];
  for (let from = 0; from < all.length; from += ASKED_AT_ONCE) {
    const some = all.slice(from, from + ASKED_AT_ONCE);
    for (const one of await asPerson(corridor, (tx) => ask(tx, some))) found.push(one);
    await turnForOthers();
  }
  return found;
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
