import { createHash } from "node:crypto";
import { asPerson } from "#db/asPerson";
import type { Bounds, Hints, Unreadable } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import { arrivalAs, type Sent } from "./arrive";
import { lockedSites } from "./lockedSites";
import { planParts, readParts } from "./parts";
import { begunAs, markOf, PartsSoFar } from "./partsStored";
import { type Corridor, record } from "./record";
import { slipOf } from "./send";
import type { Source } from "./source";
import { conclude, rowsOf, storePart } from "./storePart";
import { sumOfSlips } from "./sumOfSlips";
import { turnForOthers } from "./turnForOthers";
import { goOn, underWay, type Work } from "./underWay";

export interface LargeOrder {
  readonly source: Source;
  readonly sent: Omit<Sent, "bytes">;
  readonly hints: Hints;
  readonly bounds: Bounds;
  /** told after every part: bytes and rows that are stored, of so many bytes */
  readonly onPart?: (stored: { readonly bytes: number; readonly of: number; readonly rows: number }) => void;
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
  const soFar = new PartsSoFar(file);
  const before = await asPerson(corridor, async (tx) => {
    const { since, stored } = await soFar.readOn(tx);
    return { slip: since > 0 ? await slipOf(tx, file) : null, stored };
  });
  if (before.slip !== null) return before.slip;
  const begun = begunAs(before.stored) ?? (await beginning(order));
  if ("refused" in begun) return begun;
  const { parts, hints } = begun;
  if (parts === undefined) throw new Error("a part was stored without saying how the file is taken apart");
  const counted = { file, arrivedAt, sha256, bytes: order.source.size, site: order.sent.site, since: 0, begun, soFar };
  const slips = before.stored.map(({ slip }) => slip);
  goOn({ step: "storing", pass: 1, rows: rowsOf(slips) }, work);
  for await (const part of readParts(order.source, parts, hints, order.bounds, slips.length)) {
    if ("refused" in part) return part;
    slips.push((await storePart(corridor, counted, part.reading, slips.length)).slip);
    const rows = rowsOf(slips);
    order.onPart?.({ bytes: part.upTo, of: order.source.size, rows });
    goOn({ bytes: part.upTo, rows }, work);
    await turnForOthers(work);
  }
  return conclude(corridor, counted, sumOfSlips(slips));
}

async function beginning({ source, hints, bounds }: LargeOrder) {
  const planned = await planParts(source, hints, bounds);
  if ("refused" in planned) return planned;
  const begun = { hints: planned.hints, parts: planned.plan };
  return { ...begun, as: markOf(begun) };
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
