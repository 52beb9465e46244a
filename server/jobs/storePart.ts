import { statesOf } from "#db/queries/files";
import { factsOf } from "#db/queries/sites";
import type { Reading } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import { slipCode } from "./arrive";
import { lackingBetween } from "./lacking";
import { lockedSites } from "./lockedSites";
import type { Decided } from "./matchSite";
import { type PartStored, partsStored } from "./partsStored";
import { planFile } from "./planFile";
import { type Corridor, record } from "./record";
import { slipOf } from "./send";
import type { SlipPart } from "./slipPart";
import { Stopped } from "./underWay";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** A file that is here and is counted part by part. */
export interface InParts {
  readonly file: string;
  /** null: a log of the programme */
  readonly site: number | null;
  readonly sha256: string;
  readonly bytes: number;
  readonly arrivedAt: string;
}

/**
 * Stores some rows of a file with their batches and sums in one record; a part that is stored already stays as it is.
 * Throws Stopped where the file was taken back meanwhile.
 */
export async function storePart(
  corridor: Corridor,
  { file, site: owner, arrivedAt }: InParts,
  reading: Reading,
  which: Omit<PartStored, "slip" | "sites" | "brought">,
  said: Pick<Decided, "are" | "putRight"> = { are: {} },
): Promise<SlipPart> {
  return record<SlipPart>(corridor, async (tx) => {
    const sites = await lockedSites(tx, owner);
    const site = sites.find(({ id }) => id === owner) ?? null;
    const states = await statesOf(tx, file);
    if (states.some(({ state }) => state === "withdrawn")) throw new Stopped();
    const done = partsStored(states).find(({ part }) => part === which.part);
    if (done !== undefined) return { nothing: done.slip }; // somebody else sends the same file
    const facts = await factsOf(
      tx,
      sites.map(({ id }) => id),
      EVERYTHING,
    );
    const decided = { ...said, withdraw: new Set<string>(), inParts: true };
    const plan = await planFile(tx, { file, site, sites, reading, facts, arrivedAt: new Date(arrivedAt), decided });
    const slip = { ...plan.slip, open: reading.questions.length };
    const whose = owner === null ? { sites: plan.sites } : {};
    const state = { file, site: owner, state: "read", detail: { ...which, slip, brought: plan.brought, ...whose } };
    return {
      command: "send",
      site: owner,
      about: { file, part: which.part },
      sealed: plan.sealed,
      changes: { ...plan.changes, fileStates: [state] },
      answer: () => slip,
    };
  });
}

/** The last record of a file that was stored in parts: its sending slip, and how it was read. */
export async function conclude(
  corridor: Corridor,
  { file, site: owner, sha256, bytes, arrivedAt }: InParts,
  how: Readonly<Record<string, unknown>>,
  sum: SlipPart,
): Promise<Slip> {
  return record<Slip>(corridor, async (tx) => {
    const sites = await lockedSites(tx, owner);
    const states = await statesOf(tx, file);
    if (states.some(({ state }) => state === "withdrawn")) throw new Stopped();
    if (states.some(({ state }) => state === "counted")) return { nothing: await slipOf(tx, file) };
    const parts = partsStored(states);
    const sitesOfParts = new Set(parts.flatMap((part) => part.sites ?? []));
    const whose = owner === null ? { sites: [...sitesOfParts].sort((a, b) => a - b) } : {};
    const site = sites.find(({ id }) => id === owner)?.code ?? null;
    const brought = parts.flatMap((part) => part.brought ?? []);
    let vanished = sum.batches.vanished;
    for (const { id } of sites) vanished += (await lackingBetween(tx, id, file, brought)).length;
    const slip = {
      code: slipCode(file),
      file,
      site,
      sha256,
      bytes,
      arrivedAt: new Date(arrivedAt).toISOString(),
      ...sum,
      batches: { ...sum.batches, vanished },
    };
    return {
      command: "send",
      site: owner,
      about: { file, sha256, bytes },
      changes: { fileStates: [{ file, site: owner, state: "counted", detail: { ...how, slip, ...whose } }] },
      answer: (ledgerIndex) => ({ ...slip, ledgerIndex }),
    };
  });
}

export function rowsOf(slips: readonly SlipPart[]): number {
  return slips.reduce((sum, slip) => sum + slip.rows.rows, 0);
}
