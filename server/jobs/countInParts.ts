import { asPerson } from "#db/asPerson";
import { fileById, statesOf } from "#db/queries/files";
import type { Role } from "#server/terms/person";
import type { Bounds, Reading, RowRead } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import { arrive } from "./arrive";
import { type AsCounted, type CountedBefore, countedBefore, partAsBefore, readAsCounted } from "./countedBefore";
import { dayParts, ROWS_AT_ONCE, rowsAPart } from "./dayParts";
import { type Begun, begunAs, markOf, PartsSoFar, partsStored } from "./partsStored";
import { keyOf } from "./planBatches";
import type { Corridor } from "./record";
import { type SendOrder, saidOfRows, send, slipOf, TakenBack } from "./send";
import type { SlipPart } from "./slipPart";
import { conclude, type InParts, rowsOf, storePart } from "./storePart";
import { sumOfSlips } from "./sumOfSlips";
import { turnForOthers } from "./turnForOthers";
import { aside, goOn, workAtHand } from "./underWay";
import { withdrawLacking } from "./withdrawLacking";

/**
 * Counts a log that was read whole: at once, wholly or not at all, or where it is large, part by part: every part wholly
 * or not at all, a day's loads never apart; on the embedded database with a pause after each for those who wait. Counted
 * again with other answers, its parts take the place of what it said before one by one. Stopped or cut short, what is
 * stored counts, and the rest is counted when somebody asks for it again. Throws TakenBack where a file is named that
 * does not stand any more, Stopped, and BegunOtherwise where it is counted by somebody in another way just now.
 */
export async function countLog(corridor: Corridor, bounds: Bounds, order: SendOrder): Promise<Slip> {
  const { reading, hints, sent, why } = order;
  if (reading.rows.length <= ROWS_AT_ONCE) return send(corridor, order);
  const file = order.file ?? (await arrive(corridor, sent));
  const before = order.again === true ? await readAsCounted(corridor, bounds, file, sent.bytes) : null;
  if (order.again === true && (before === null || lacksRows(reading, before))) return send(corridor, order);
  const { putRight } = saidOfRows(corridor, order);
  const withdraw = order.withdraw ?? [];
  const begun: Begun = {
    hints,
    rowsAPart: rowsAPart(corridor, before !== null),
    ...(before === null ? {} : { again: true }),
    ...(withdraw.length === 0 ? {} : { withdraw }),
    ...(why === undefined ? {} : { why }),
    ...(putRight === undefined ? {} : { putRight }),
  };
  return countInParts(corridor, { file, reading, before, begun: { ...begun, as: markOf(begun) }, by: order.by });
}

export interface PartsOrder {
  readonly file: string;
  readonly reading: Reading;
  /** it as it was read when it was last counted, where it is counted again */
  readonly before: AsCounted | null;
  readonly begun: InParts["begun"];
  readonly by: Role | undefined;
}

/** Counts the parts of a file that are not stored yet; of one that is counted again, those that say something else. */
export async function countInParts(corridor: Corridor, order: PartsOrder): Promise<Slip> {
  const { file, reading, begun } = order;
  const soFar = new PartsSoFar(file);
  const here = await asPerson(corridor, async (tx) => {
    const found = await fileById(tx, file);
    if (found === undefined || found.state === "withdrawn") throw new TakenBack(file);
    await soFar.readOn(tx);
    const isThere = found.state === "counted" && begun.again !== true;
    return { found: found.file, slip: isThere ? await slipOf(tx, file) : null };
  });
  if (here.slip !== null) return here.slip;
  const { site, sha256, bytes, arrivedAt } = here.found;
  const since = order.before?.since ?? soFar.since;
  const counted: InParts = { file, site, sha256, bytes, arrivedAt, since, begun, soFar };
  const stored = new Map(soFar.stored.map(({ part, slip }) => [part, slip]));
  const parts = dayParts(reading.rows, begun.rowsAPart);
  const slips: SlipPart[] = [];
  let before = await saidBefore(corridor, order, parts, stored);
  const said = {
    are: begun.hints.answers?.are ?? {},
    ...(begun.putRight === undefined ? {} : { putRight: begun.putRight }),
  };
  const work = workAtHand();
  const tell = () => goOn({ step: "storing", rows: rowsOf(slips), ofRows: reading.rows.length, inParts: true }, work);
  tell();
  for (const [part, rows] of parts.entries()) {
    const own: Reading = { ...reading, rows, totals: [] };
    const done = stored.get(part) ?? (before?.areAsBefore(rows, said.are) === true ? partAsBefore(rows) : undefined);
    if (done !== undefined) {
      slips.push(done);
      await turnForOthers(work);
      continue;
    }
    const how = before === null ? said : { ...said, before: before.of(rows) };
    const { slip, links } = await aside(() => storePart(corridor, counted, own, part, how));
    slips.push(slip);
    if (links === null) before = await saidBefore(corridor, order, parts, new Map(slips.entries()));
    else before?.told(rows, links);
    tell();
    await turnForOthers(work);
  }
  for (let part = parts.length; ; part++) {
    const slip = await aside(() => withdrawLacking(corridor, counted, part));
    if (slip === null) break;
    slips.push(slip);
  }
  const sum = sumOfSlips(slips);
  const open = reading.questions.length + (reading.look?.faults.length ?? 0);
  const slip = { ...sum, held: inOrder(reading, sum.held), totals: reading.totals, open };
  return aside(() => conclude(corridor, counted, slip, order.by));
}

/** How a file was begun to be counted, where parts of it are missing; null where it was not. */
export async function begunOf(corridor: Corridor, file: string): Promise<InParts["begun"] | null> {
  const begun = begunAs(partsStored(await asPerson(corridor, (tx) => statesOf(tx, file))));
  return begun === null || begun.parts !== undefined ? null : begun;
}

/** What a log that is counted again said before, with the parts that are in already; null where it is its first time. */
async function saidBefore(
  corridor: Corridor,
  { file, before }: PartsOrder,
  parts: readonly (readonly RowRead[])[],
  stored: ReadonlyMap<number, unknown>,
): Promise<CountedBefore | null> {
  if (before === null) return null;
  const rows = new Map(before.rows.map((row) => [keyOf(row), row]));
  for (const [part, own] of parts.entries()) if (stored.has(part)) for (const row of own) rows.set(keyOf(row), row);
  return countedBefore(corridor, file, { rows: [...rows.values()], are: before.are });
}

/** Whether rows that counted are no rows any more, as where a table is read otherwise: no part would take them back. */
function lacksRows({ rows }: Reading, before: AsCounted): boolean {
  const here = new Set(rows.map(keyOf));
  return before.rows.some((row) => row.fate === "counted" && !here.has(keyOf(row)));
}

/** Parts follow the days; what is held is listed as the log has it. */
function inOrder<T extends { readonly sheet: string; readonly row: number }>(
  reading: Reading,
  held: readonly T[],
): T[] {
  const places = new Map(reading.rows.map((row, at) => [keyOf(row), at]));
  const placeOf = (one: T) => places.get(keyOf(one)) ?? 0;
  return [...held].sort((a, b) => placeOf(a) - placeOf(b));
}
