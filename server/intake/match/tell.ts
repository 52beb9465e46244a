import type { Batch, BatchWritten } from "#server/terms/batch";

/** What a row says stands; what it does not say stays as it was. */
export function told(before: Batch, written: BatchWritten): Batch {
  const said = Object.fromEntries(Object.entries(written).filter(([, value]) => value !== null));
  return waitingOrNot({ ...before, ...said }, before, before.driedToCome || written.driedToCome);
}

/**
 * A row that was read once more says only what it says otherwise than the last time, so what other logs have changed
 * in between stays. What it no longer says goes, as long as nobody else has said it otherwise.
 */
export function toldAnew(before: Batch, was: BatchWritten, is: BatchWritten): Batch {
  const [then, now] = [new Map(Object.entries(was)), new Map(Object.entries(before))];
  const said = Object.entries(is).filter(([field, value]) => {
    if (isEqual(value, then.get(field))) return false;
    return value !== null || (field !== "method" && isEqual(now.get(field), then.get(field)));
  });
  return waitingOrNot({ ...before, ...Object.fromEntries(said) }, before, is.driedToCome);
}

/** Everything that a log may say of a batch, in the order in which people look at it. */
const FIELDS = [
  "day",
  "number",
  "pan",
  "startMinute",
  "endMinute",
  "harvest",
  "method",
  "grain",
  "loads",
  "fresh",
  "dried",
  "driedToCome",
  "minutes",
  "rejects",
  "sandKg",
  "sandCycle",
  "newSand",
  "crushTest",
  "crisp",
  "colour",
  "moistureReading",
  "waterActivity",
] as const satisfies readonly (keyof BatchWritten)[];

/** What a batch is told otherwise by now. */
export function differing(was: BatchWritten, is: BatchWritten): (keyof BatchWritten)[] {
  return FIELDS.filter((field) => !isEqual(was[field], is[field]));
}

/** True when everything about two is the same, whatever order their names stand in. */
export function sameContent(a: Batch, b: Batch): boolean {
  return JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
}

function waitingOrNot(batch: Batch, { id, site, inTime }: Batch, toCome: boolean): Batch {
  return { ...batch, id, site, inTime, driedToCome: batch.dried === null && toCome };
}

function isEqual(a: unknown, b: unknown): boolean {
  return JSON.stringify(inOrder(a ?? null)) === JSON.stringify(inOrder(b ?? null));
}

function inOrder(value: unknown): unknown {
  return value !== null && typeof value === "object" ? sorted(value) : value;
}

function sorted(one: object): [string, unknown][] {
  return Object.entries(one)
    .map(([name, value]): [string, unknown] => [name, inOrder(value)])
    .sort(([a], [b]) => (a < b ? -1 : 1));
}
