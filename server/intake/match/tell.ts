import type { Batch, BatchWritten } from "#server/terms/batch";
import { FIELDS, isSame } from "./content";

/**
 * The batch that a row makes where it is the first to speak of it.
 *
 * Field by field, because members added to a spread cost a hundred times as much, and every row comes by here.
 */
export function toldFirst(written: BatchWritten, own: Pick<Batch, "id" | "site" | "inTime" | "method">): Batch {
  return {
    id: own.id,
    site: own.site,
    day: written.day,
    method: own.method,
    grain: written.grain,
    loads: written.loads,
    number: written.number,
    pan: written.pan,
    harvest: written.harvest,
    startMinute: written.startMinute,
    endMinute: written.endMinute,
    fresh: written.fresh,
    dried: written.dried,
    driedToCome: written.driedToCome,
    minutes: written.minutes,
    rejects: written.rejects,
    sandKg: written.sandKg,
    sandCycle: written.sandCycle,
    newSand: written.newSand,
    crushTest: written.crushTest,
    crisp: written.crisp,
    colour: written.colour,
    moistureReading: written.moistureReading,
    waterActivity: written.waterActivity,
    inTime: own.inTime,
  };
}

/** What a row says stands; what it does not say stays as it was. */
export function told(before: Batch, written: BatchWritten): Batch {
  const said = Object.fromEntries(FIELDS.flatMap((field) => (written[field] == null ? [] : [[field, written[field]]])));
  return waitingOrNot({ ...before, ...said }, before, before.driedToCome || written.driedToCome);
}

/**
 * A row that was read once more says only what it says otherwise than the last time, so what other logs have changed
 * in between stays. What it no longer says goes, as long as nobody else has said it otherwise.
 */
export function toldAnew(before: Batch, was: BatchWritten, is: BatchWritten): Batch {
  const said = differing(was, is).filter(
    (field) => is[field] !== null || (field !== "method" && isSame(before[field], was[field])),
  );
  const now = Object.fromEntries(said.map((field) => [field, is[field]]));
  return waitingOrNot({ ...before, ...now }, before, is.driedToCome);
}

/** What a batch is told otherwise by now. */
export function differing(was: BatchWritten, is: BatchWritten): (keyof BatchWritten)[] {
  return FIELDS.filter((field) => !isSame(was[field], is[field]));
}

/** True when everything about two is the same, what makes them ours among it. */
export function sameContent(a: Batch, b: Batch): boolean {
  return a.id === b.id && a.site === b.site && a.inTime === b.inTime && differing(a, b).length === 0;
}

function waitingOrNot(batch: Batch, { id, site, inTime }: Batch, toCome: boolean): Batch {
  return { ...batch, id, site, inTime, driedToCome: batch.dried === null && toCome };
}
