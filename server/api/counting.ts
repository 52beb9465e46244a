import { asPerson } from "#db/asPerson";
import { type FileNow, fileById } from "#db/queries/files";
import { unseal } from "#db/queries/sealed";
import { canonical } from "#server/evidence/canonical";
import type { Sent } from "#server/jobs/arrive";
import { readAsCounted } from "#server/jobs/countedBefore";
import { begunOf, countInParts, countLog } from "#server/jobs/countInParts";
import { keepInMind } from "#server/jobs/layouts";
import { readBytes } from "#server/jobs/readBytes";
import { readForSite } from "#server/jobs/readForSite";
import type { Corridor } from "#server/jobs/record";
import { soFarOf } from "#server/jobs/saidOfFiles";
import { slipOf, TakenBack } from "#server/jobs/send";
import { BegunOtherwise } from "#server/jobs/storePart";
import type { Said } from "#server/terms/answers";
import type { Person } from "#server/terms/person";
import type { Bounds, Hints, Unreadable } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import { wrong } from "./base";
import { hintsThen, orderOf, ownAnswers, whyCorrected } from "./countedLog";
import { type Decided, decidedIn } from "./resent";
import { onlyKnownUnits } from "./unitsSaid";

/** A log that cannot be read is answered with what it is; one that can, with its sending slip. */
export type Sending = { readonly slip: Slip } | { readonly unreadable: Unreadable };

interface Asked {
  readonly corridor: Corridor;
  readonly bounds: Bounds;
  readonly person: Person;
}

/** With which month and answers, and what was decided about what is here already. */
type HowToCount = Parameters<typeof decidedIn>[0] & {
  readonly period?: string | undefined;
  readonly answers?: Said | undefined;
  readonly again?: boolean | undefined;
};

/**
 * Counts a log that is here. One of which parts are counted goes on as it was begun; what is answered otherwise counts
 * after that, in the place of it.
 */
export async function countHere(asked: Asked & { readonly found: FileNow }, input: HowToCount): Promise<Sending> {
  const { corridor, bounds, person, found } = asked;
  const decided = decidedIn(input);
  const { file, state } = found;
  if (state === "withdrawn") throw takenBack(soFarOf(found.detail) !== null);
  const { bytes, name } = await kept(corridor, file);
  const begun = await begunOf(corridor, file.id);
  if (begun !== null) {
    const rest = await countRest(asked, file.id, bytes, begun);
    if (input.answers === undefined || saysTheSame(input.answers, begun)) return rest;
    return countHere({ ...asked, found: await asItIs(corridor, file.id) }, { ...input, again: true });
  }
  await onlyKnownUnits(corridor, file.site, input);
  const { reading, hints, putRight = [] } = await readForSite(corridor, bounds, orderOf(found, bytes, input));
  if ("refused" in reading) return { unreadable: reading };
  const from: Sent = {
    bytes,
    name,
    site: file.site,
    cameBy: file.cameBy === "message" ? "message" : "site",
    claimedAt: file.claimedAt,
  };
  const corrected = whyCorrected(hintsThen(found), hints);
  const how = { file: file.id, again: input.again ?? false, by: person.role, putRight, ...corrected, ...decided };
  const slip = await countLog(corridor, bounds, { sent: from, reading, hints, ...how }).catch(saidOtherwise);
  if (slip instanceof BegunOtherwise) return countHere({ ...asked, found: await asItIs(corridor, file.id) }, input);
  if (file.site !== null) keepInMind(slip.file, slip.ledgerIndex, reading, hints);
  return { slip };
}

function saysTheSame(answers: Said, { hints }: { readonly hints: Hints }): boolean {
  return canonical(answers) === canonical(ownAnswers(hints) ?? {});
}

async function asItIs(corridor: Corridor, file: string): Promise<FileNow> {
  const found = await asPerson(corridor, (tx) => fileById(tx, file));
  if (found === undefined) throw new Error(`file ${file} is gone`);
  return found;
}

/** Goes on with a log of which parts are counted, as it was begun. */
async function countRest(
  { corridor, bounds, person }: Asked,
  file: string,
  bytes: Uint8Array,
  begun: NonNullable<Awaited<ReturnType<typeof begunOf>>>,
): Promise<Sending> {
  const reading = await readBytes({ bytes, hints: begun.hints, bounds, look: "faults" });
  if ("refused" in reading) return { unreadable: reading };
  const before = begun.again === true ? await readAsCounted(corridor, bounds, file, bytes) : null;
  if (begun.again === true && before === null) throw new Error(`file ${file} cannot be read as it was counted`);
  const order = { file, reading, before, begun, by: person.role };
  const slip = await countInParts(corridor, order).catch(saidOtherwise);
  if (!(slip instanceof BegunOtherwise)) return { slip };
  return { slip: await asPerson(corridor, (tx) => slipOf(tx, file)) };
}

/** That somebody counts it otherwise just now is no trouble: it is counted when that is done. */
function saidOtherwise(trouble: unknown): BegunOtherwise {
  return trouble instanceof BegunOtherwise ? trouble : sayTakenBack(trouble);
}

/** In the place of TakenBack what a person is told; everything else goes on as it came. */
function sayTakenBack(trouble: unknown): never {
  throw trouble instanceof TakenBack ? takenBack() : trouble;
}

function takenBack(inPart = false) {
  return wrong(
    inPart
      ? "This log is being taken back, and not all of it is yet. Take back the rest first; then it can come again."
      : "This log was taken back, so nothing of it counts. Send it once more from the list of what was sent.",
  );
}

/** Keeps, reads and counts a log in one go. */
export async function sendRead(
  { corridor, bounds, person }: Asked,
  from: Sent,
  period: string | null,
  said: Said | null,
  decided: Decided,
): Promise<Sending> {
  await onlyKnownUnits(corridor, from.site, { ...(period === null ? {} : { period }), answers: said ?? {} });
  const order = { bytes: from.bytes, site: from.site, period, answers: said };
  const { reading, hints, putRight = [] } = await readForSite(corridor, bounds, order);
  if ("refused" in reading) return { unreadable: reading };
  const how = { sent: from, reading, hints, by: person.role, putRight, ...decided };
  const slip = await countLog(corridor, bounds, how).catch(saidOtherwise);
  if (slip instanceof BegunOtherwise)
    return countHere({ corridor, bounds, person, found: await asItIs(corridor, slip.file) }, {});
  if (from.site !== null) keepInMind(slip.file, slip.ledgerIndex, reading, hints);
  return { slip };
}

/** The bytes and the name of a file that is here. */
export function kept(
  { store, ...corridor }: Corridor,
  file: { sha256: string; nameSealed: string },
): Promise<{ bytes: Uint8Array; name: string }> {
  return asPerson({ store, ...corridor }, async (tx) => {
    const bytes = await store.storage.bytes(tx, file.sha256);
    if (bytes === undefined) throw new Error(`the bytes ${file.sha256} are gone`);
    return { bytes, name: (await unseal(tx, [file.nameSealed])).get(file.nameSealed) ?? "log" };
  });
}
