import { asPerson } from "#db/asPerson";
import { fileById, statesOf } from "#db/queries/files";
import type { Hints, Reading } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import { arrive } from "./arrive";
import { dayParts, ROWS_AT_ONCE } from "./dayParts";
import { partsStored } from "./partsStored";
import type { Corridor } from "./record";
import { type SendOrder, saidOfRows, send, slipOf, TakenBack } from "./send";
import { conclude, type InParts, rowsOf, storePart } from "./storePart";
import { sumOfSlips } from "./sumOfSlips";
import { turnForOthers } from "./turnForOthers";
import { aside, goOn, workAtHand } from "./underWay";

/**
 * Counts a log that was read whole: at once, wholly or not at all, or where it is large, part by part. A large one that
 * is counted for the first time and withdraws nothing is stored so: every part wholly or not at all, a day's loads
 * never apart; on the embedded database with a pause after each for those who wait. Stopped or cut short, what is stored
 * counts, and the rest is counted when somebody asks for it again. Throws TakenBack where a file is named that does not
 * stand any more, and Stopped.
 */
export async function countLog(corridor: Corridor, order: SendOrder): Promise<Slip> {
  const { reading, again = false, withdraw = [] } = order;
  if (reading.rows.length <= ROWS_AT_ONCE || again || withdraw.length > 0) return send(corridor, order);
  const file = order.file ?? (await arrive(corridor, order.sent));
  return countInParts(corridor, file, order);
}

type Read = Pick<SendOrder, "reading" | "hints" | "by" | "why" | "putRight">;

/** Counts the parts of a file that are not stored yet. */
export async function countInParts(corridor: Corridor, file: string, read: Read): Promise<Slip> {
  const { reading, hints, by, why } = read;
  const said = saidOfRows(corridor, read);
  const before = await asPerson(corridor, async (tx) => {
    const found = await fileById(tx, file);
    if (found === undefined || found.state === "withdrawn") throw new TakenBack(file);
    const slip = found.state === "counted" ? await slipOf(tx, file) : null;
    return { slip, found, stored: partsStored(await statesOf(tx, file)) };
  });
  if (before.slip !== null) return before.slip;
  const { site, sha256, bytes, arrivedAt } = before.found.file;
  const counted: InParts = { file, site, sha256, bytes, arrivedAt };
  const slips = before.stored.map(({ slip }) => slip);
  const work = workAtHand();
  const tell = () => goOn({ step: "storing", rows: rowsOf(slips), ofRows: reading.rows.length, inParts: true }, work);
  tell();
  for (const [part, rows] of dayParts(reading.rows).entries()) {
    if (part < slips.length) continue;
    const began = performance.now();
    const which = { part, ...(part === 0 ? { hints } : {}) };
    const own: Reading = { ...reading, rows, totals: [] };
    slips.push(await aside(() => storePart(corridor, counted, own, which, said)));
    tell();
    await turnForOthers(corridor, performance.now() - began);
  }
  const sum = sumOfSlips(slips);
  const open = reading.questions.length + (reading.look?.faults.length ?? 0);
  const slip = { ...sum, held: inOrder(reading, sum.held), totals: reading.totals, open };
  const how = { hints, ...(why === undefined ? {} : { why }), ...(by === undefined ? {} : { by }) };
  return aside(() => conclude(corridor, counted, how, slip));
}

/** With which month and answers a file was begun to be counted, where parts of it are missing; null where it was not. */
export async function hintsBegun(corridor: Corridor, file: string): Promise<Hints | null> {
  const [first] = partsStored(await asPerson(corridor, (tx) => statesOf(tx, file)));
  return first === undefined || first.parts !== undefined ? null : (first.hints ?? null);
}

/** Parts follow the days; what is held is listed as the log has it. */
function inOrder<T extends { readonly sheet: string; readonly row: number }>(
  reading: Reading,
  held: readonly T[],
): T[] {
  const places = new Map(reading.rows.map(({ sheet, row }, at) => [`${sheet}!${row}`, at]));
  const placeOf = ({ sheet, row }: T) => places.get(`${sheet}!${row}`) ?? 0;
  return [...held].sort((a, b) => placeOf(a) - placeOf(b));
}
