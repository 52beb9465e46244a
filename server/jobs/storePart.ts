import type { Changes } from "#db/queries/recorded";
import type { Site } from "#db/queries/sites";
import { factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import type { Fact } from "#server/terms/facts";
import type { Role } from "#server/terms/person";
import type { Reading } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import { slipCode } from "./arrive";
import { lackingBetween } from "./lacking";
import { lockedSites } from "./lockedSites";
import type { Decided } from "./matchSite";
import type { Begun, PartStored, PartsSoFar } from "./partsStored";
import { planFile } from "./planFile";
import { type Act, type Corridor, record } from "./record";
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
  /** the record in which it was last counted as a whole; 0 where it never was */
  readonly since: number;
  readonly begun: Begun & { readonly as: string };
  readonly soFar: PartsSoFar;
}

/** Somebody counts the same file otherwise, or has counted it meanwhile. */
export class BegunOtherwise extends Error {
  readonly file: string;

  constructor(file: string) {
    super(`file ${file} is counted otherwise by somebody`);
    this.file = file;
  }
}

/** What one part changes, as it is stored with its sending slip. */
interface PartPlan extends Pick<PartStored, "slip" | "sites" | "brought"> {
  readonly changes: Changes;
  readonly sealed: NonNullable<Act<unknown>["sealed"]>;
}

interface Here {
  /** those that rows may name, all locked */
  readonly sites: readonly Site[];
  readonly facts: readonly Fact[];
  readonly stored: readonly PartStored[];
}

/**
 * Stores some rows of a file with their batches and sums in one record; a part that is stored already stays as it is,
 * and `links` are null. Throws Stopped where the file was taken back meanwhile, BegunOtherwise where somebody else
 * counts it in another way.
 */
export async function storePart(
  corridor: Corridor,
  counted: InParts,
  reading: Reading,
  part: number,
  said: Omit<Decided, "withdraw" | "inParts"> = { are: {} },
): Promise<{ readonly slip: SlipPart; readonly links: NonNullable<Changes["rowBatches"]> | null }> {
  const { file, site: owner, arrivedAt, begun } = counted;
  let links: NonNullable<Changes["rowBatches"]> | null = null;
  const stored = await inOnePart(corridor, counted, part, async (tx, { sites, facts }) => {
    const site = sites.find(({ id }) => id === owner) ?? null;
    const decided = { ...said, withdraw: new Set(begun.withdraw), inParts: true };
    const plan = await planFile(tx, { file, site, sites, reading, facts, arrivedAt: new Date(arrivedAt), decided });
    links = (plan.changes.rowBatches ?? []).filter((link) => link.file === file);
    const slip = { ...plan.slip, open: reading.questions.length };
    return { ...plan, slip };
  });
  if (stored === null) throw new Error(`part ${part} of file ${file} was neither stored nor there`);
  return { slip: stored, links };
}

/** Stores what a part changes in one record, if it is not stored yet; null where it turns out to change nothing. */
export async function inOnePart(
  corridor: Corridor,
  { file, site: owner, since, begun, soFar }: InParts,
  part: number,
  plan: (tx: Tx, here: Here) => Promise<PartPlan | null>,
): Promise<SlipPart | null> {
  return record<SlipPart | null>(corridor, async (tx) => {
    const sites = await lockedSites(tx, owner);
    const { stored, isTakenBack, since: counted } = await soFar.readOn(tx);
    if (isTakenBack) throw new Stopped();
    const [first] = stored;
    if (counted !== since || (first?.as ?? begun.as) !== begun.as) throw new BegunOtherwise(file);
    const done = stored.find((one) => one.part === part);
    if (done !== undefined) return { nothing: done.slip }; // somebody else sends the same file
    const ids = sites.map(({ id }) => id);
    const planned = await plan(tx, { sites, stored, facts: await factsOf(tx, ids, EVERYTHING) });
    if (planned === null) return { nothing: null };
    const { slip, changes, sealed, sites: ofParts = [], brought = [] } = planned;
    const whose = owner === null ? { sites: ofParts } : {};
    const detail: PartStored = { part, slip, brought, ...whose, ...(first === undefined ? begun : {}) };
    const state = begun.again === true ? "settled" : "read";
    return {
      command: begun.again === true ? "settle" : "send",
      site: owner,
      about: { file, part },
      sealed,
      changes: { ...changes, fileStates: [{ file, site: owner, state, detail }] },
      answer: () => slip,
    };
  });
}

/** The last record of a file that was stored in parts: its sending slip, and how it was read. */
export async function conclude(
  corridor: Corridor,
  { file, site: owner, sha256, bytes, arrivedAt, since, begun, soFar }: InParts,
  sum: SlipPart,
  by?: Role,
): Promise<Slip> {
  return record<Slip>(corridor, async (tx) => {
    const sites = await lockedSites(tx, owner);
    const { stored: parts, isTakenBack, since: counted } = await soFar.readOn(tx);
    if (isTakenBack) throw new Stopped();
    if (counted !== since) return { nothing: await slipOf(tx, file) };
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
    const { hints, parts: taken, why } = begun;
    const how = { hints, ...(taken === undefined ? {} : { parts: taken }), ...(why === undefined ? {} : { why }) };
    const detail = { ...how, slip, ...whose, ...(by === undefined ? {} : { by }) };
    return {
      command: begun.again === true ? "settle" : "send",
      site: owner,
      about: { file, sha256, bytes },
      changes: { fileStates: [{ file, site: owner, state: "counted", detail }] },
      answer: (ledgerIndex) => ({ ...slip, ledgerIndex }),
    };
  });
}

export function rowsOf(slips: readonly SlipPart[]): number {
  return slips.reduce((sum, slip) => sum + slip.rows.rows, 0);
}
