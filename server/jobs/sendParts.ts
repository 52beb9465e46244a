import { createHash } from "node:crypto";
import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { statesOf } from "#db/queries/files";
import { factsOf } from "#db/queries/sites";
import type { Bounds, Hints, Unreadable } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import { arrivalAs, type Sent, slipCode } from "./arrive";
import { lockedSites } from "./lockedSites";
import { type PartRead, type PartsPlan, planParts, readParts } from "./parts";
import { planFile, type SlipPart } from "./planFile";
import { type Corridor, record } from "./record";
import { slipOf } from "./send";
import type { Source } from "./source";
import { sumOfSlips } from "./sumOfSlips";
import { goOn, Stopped, underWay, type Work } from "./underWay";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

export interface LargeOrder {
  readonly source: Source;
  readonly sent: Omit<Sent, "bytes">;
  readonly hints: Hints;
  readonly bounds: Bounds;
  /** told after every part: bytes and rows that are stored, of so many bytes */
  readonly onPart?: (stored: { readonly bytes: number; readonly of: number; readonly rows: number }) => void;
}

/** What stands in the state "read" of a file that is counted part by part. */
interface PartStored {
  readonly part: number;
  readonly parts: PartsPlan;
  readonly hints: Hints;
  readonly slip: SlipPart;
}

/**
 * Stores a log that is too large to be held in memory: the file first, then its rows part by part, each part with its
 * batches, sums and record wholly or not at all; at last the sending slip, which adds the parts up.
 *
 * A send that was cut short stands as "read" and goes on where it stopped when the same bytes come again. Throws Stopped
 * where somebody stops it, after the part that it is at, or takes it back.
 */
export async function sendParts(corridor: Corridor, order: LargeOrder): Promise<Slip | Unreadable> {
  const sha256 = await hashOf(order.source);
  const [file, arrivedAt] = await arriveInPieces(corridor, order, sha256);
  const about = {
    file,
    person: corridor.person,
    doing: "counting",
    ofBytes: order.source.size,
    inParts: true,
  } as const;
  return underWay(about, (work) => storeParts(corridor, order, { sha256, file, arrivedAt }, work));
}

async function storeParts(
  corridor: Corridor,
  order: LargeOrder,
  { sha256, file, arrivedAt }: { readonly sha256: string; readonly file: string; readonly arrivedAt: string },
  work: Work,
): Promise<Slip | Unreadable> {
  const before = await asPerson(corridor, async (tx) => {
    const states = await statesOf(tx, file);
    const isCounted = states.some(({ state }) => state === "counted");
    return { slip: isCounted ? await slipOf(tx, file) : null, stored: storedOf(states) };
  });
  if (before.slip !== null) return before.slip;
  const [first] = before.stored;
  const planned = first === undefined ? await planParts(order.source, order.hints, order.bounds) : null;
  if (planned !== null && "refused" in planned) return planned;
  const parts = planned?.plan ?? first?.parts;
  const hints = planned?.hints ?? first?.hints;
  if (parts === undefined || hints === undefined) throw new Error("a part was stored without saying how it was read");
  const slips = before.stored.map(({ slip }) => slip);
  goOn({ step: "storing", pass: 1, rows: rowsOf(slips) }, work);
  for await (const part of readParts(order.source, parts, hints, order.bounds, slips.length)) {
    if ("refused" in part) return part;
    slips.push(await storePart(corridor, order, file, arrivedAt, { part: slips.length, parts, hints }, part));
    const rows = rowsOf(slips);
    order.onPart?.({ bytes: part.upTo, of: order.source.size, rows });
    goOn({ bytes: part.upTo, rows }, work);
  }
  return conclude(corridor, order, sha256, file, arrivedAt, { hints, parts }, sumOfSlips(slips));
}

async function hashOf(source: Source): Promise<string> {
  const hash = createHash("sha256");
  for await (const piece of source.pieces()) hash.update(piece);
  return hash.digest("hex");
}

/** The file's id and when it arrived; its bytes are durable. */
async function arriveInPieces(corridor: Corridor, { source, sent }: LargeOrder, sha256: string) {
  const { storage } = corridor.store;
  await storage.room(source.size);
  return record<readonly [string, string]>(corridor, async (tx) => {
    await lockedSites(tx, sent.site);
    const keep = () => storage.keepPieces(tx, sha256, source.pieces());
    const content = { sha256, size: source.size, picture: null, keep };
    const [standing, { file, sealed, changes }] = await arrivalAs(tx, corridor, sent, content);
    if (standing !== null) return { nothing: [file.id, file.arrivedAt] };
    const about = { file: file.id, sha256, bytes: source.size };
    return { command: "arrive", site: sent.site, about, sealed, changes, answer: () => [file.id, file.arrivedAt] };
  });
}

function storedOf(states: Awaited<ReturnType<typeof statesOf>>): PartStored[] {
  return states.flatMap(({ state, detail }) => (state === "read" ? [detail as PartStored] : []));
}

function rowsOf(slips: readonly SlipPart[]): number {
  return slips.reduce((sum, slip) => sum + slip.rows.rows, 0);
}

/** What is counted of a file whose parts are not all stored; null where none is. */
export function storedSoFar(states: Awaited<ReturnType<typeof statesOf>>) {
  const slips = states.flatMap(({ state, detail }) => {
    const stored = state === "read" ? partStored.safeParse(detail).data : undefined;
    return stored === undefined ? [] : [stored.slip.rows];
  });
  const sum = (of: "rows" | "counted" | "held") => slips.reduce((all, rows) => all + rows[of], 0);
  return slips.length === 0
    ? null
    : { parts: slips.length, rows: sum("rows"), counted: sum("counted"), held: sum("held") };
}

const partStored = z.object({
  part: z.int(),
  slip: z.object({ rows: z.object({ rows: z.int(), counted: z.int(), held: z.int() }) }),
});

async function storePart(
  corridor: Corridor,
  { sent }: LargeOrder,
  file: string,
  arrivedAt: string,
  which: Omit<PartStored, "slip">,
  { reading }: PartRead,
): Promise<SlipPart> {
  return record<SlipPart>(corridor, async (tx) => {
    const sites = await lockedSites(tx, sent.site);
    const site = sites.find(({ id }) => id === sent.site) ?? null;
    const states = await statesOf(tx, file);
    if (states.some(({ state }) => state === "withdrawn")) throw new Stopped();
    const done = storedOf(states).find(({ part }) => part === which.part);
    if (done !== undefined) return { nothing: done.slip }; // somebody else sends the same file
    const facts = await factsOf(
      tx,
      sites.map(({ id }) => id),
      EVERYTHING,
    );
    const decided = { are: {}, withdraw: new Set<string>(), inParts: true };
    const plan = await planFile(tx, { file, site, sites, reading, facts, arrivedAt: new Date(arrivedAt), decided });
    const slip = { ...plan.slip, open: reading.questions.length };
    const state = { file, site: sent.site, state: "read", detail: { ...which, slip } };
    return {
      command: "send",
      site: sent.site,
      about: { file, part: which.part },
      sealed: plan.sealed,
      changes: { ...plan.changes, fileStates: [state] },
      answer: () => slip,
    };
  });
}

/** The last record of a file that was stored in parts: its sending slip. */
async function conclude(
  corridor: Corridor,
  { sent, source }: LargeOrder,
  sha256: string,
  file: string,
  arrivedAt: string,
  how: { readonly hints: Hints; readonly parts: PartsPlan },
  sum: SlipPart,
): Promise<Slip> {
  return record<Slip>(corridor, async (tx) => {
    const sites = await lockedSites(tx, sent.site);
    const states = (await statesOf(tx, file)).map(({ state }) => state);
    if (states.includes("withdrawn")) throw new Stopped();
    if (states.includes("counted")) return { nothing: await slipOf(tx, file) };
    const site = sites.find(({ id }) => id === sent.site)?.code ?? null;
    const arrived = new Date(arrivedAt).toISOString();
    const slip = { code: slipCode(file), file, site, sha256, bytes: source.size, arrivedAt: arrived, ...sum };
    return {
      command: "send",
      site: sent.site,
      about: { file, sha256, bytes: source.size },
      changes: { fileStates: [{ file, site: sent.site, state: "counted", detail: { ...how, slip } }] },
      answer: (ledgerIndex) => ({ ...slip, ledgerIndex }),
    };
  });
}
