import { and, desc, eq, lte, sql } from "drizzle-orm";
import type { Batch, Grain, Method, Quantity, TestResult } from "#server/terms/batch";
import { listed } from "../listed";
import { batchRevisions, fileStates } from "../schema";
import type { Tx } from "../store";

export type BatchRow = typeof batchRevisions.$inferSelect;

/** A batch with what its last revision says about itself. */
export interface KnownBatch {
  readonly batch: Batch;
  readonly file: string | null;
  readonly withdrawn: boolean;
  readonly ledgerIndex: number;
}

/**
 * The batches that are, as known at a size of the ledger, on some days of a site, or carry one of some numbers.
 * Of each the latest revision; withdrawn ones are left out.
 */
export async function batchesOn(
  tx: Tx,
  site: number,
  days: readonly string[],
  numbers: readonly string[],
  size: number,
): Promise<KnownBatch[]> {
  // Compared with arrays, each of the two is looked up in its index; with sub-selects all batches of the site would be.
  const onDays = sql`${batchRevisions.day} = any(array${listed(days, "date")})`;
  const numbered = sql`${batchRevisions.number} = any(array${listed(numbers, "text")})`;
  const touched = sql`${batchRevisions.batch} in (select ${batchRevisions.batch} from ${batchRevisions}
    where ${batchRevisions.site} = ${site} and ${batchRevisions.ledgerIndex} <= ${size} and (${onDays} or ${numbered}))`;
  const latest = await tx
    .selectDistinctOn([batchRevisions.batch])
    .from(batchRevisions)
    .where(and(lte(batchRevisions.ledgerIndex, size), touched)) // not by site again: some plans would look up all of it
    .orderBy(batchRevisions.batch, desc(batchRevisions.ledgerIndex));
  const wantedDays = new Set(days);
  const wantedNumbers = new Set(numbers);
  return latest
    .filter(
      (row) => !row.withdrawn && (wantedDays.has(row.day) || (row.number !== null && wantedNumbers.has(row.number))),
    )
    .map((row) => ({ batch: batchOf(row), file: row.file, withdrawn: row.withdrawn, ledgerIndex: row.ledgerIndex }));
}

/** Every revision of some batches, oldest first. */
export async function revisionsOf(tx: Tx, batches: readonly string[], size: number): Promise<BatchRow[]> {
  return tx
    .select()
    .from(batchRevisions)
    .where(and(sql`${batchRevisions.batch} in ${listed(batches, "uuid")}`, lte(batchRevisions.ledgerIndex, size)))
    .orderBy(batchRevisions.batch, batchRevisions.ledgerIndex);
}

/** The revisions that a file made in the records in which it was counted. */
export async function batchesFrom(tx: Tx, file: string): Promise<BatchRow[]> {
  const records = sql`(select ${fileStates.ledgerIndex} from ${fileStates} where ${fileStates.file} = ${file})`;
  return tx
    .select()
    .from(batchRevisions)
    .where(and(eq(batchRevisions.file, file), sql`${batchRevisions.ledgerIndex} in ${records}`))
    .orderBy(batchRevisions.batch, batchRevisions.ledgerIndex);
}

/** A table row in the words of every room. */
export function batchOf(row: BatchRow): Batch {
  return {
    id: row.batch,
    site: row.site,
    day: row.day,
    method: row.method as Method,
    grain: row.grain as Grain,
    loads: row.loads,
    number: row.number,
    pan: row.pan,
    harvest: row.harvest,
    startMinute: row.startMinute,
    endMinute: row.endMinute,
    fresh: quantity(row.freshExact, row.freshKg),
    dried: quantity(row.driedExact, row.driedKg),
    driedToCome: row.driedToCome,
    minutes: quantity(row.minutesExact, row.minutes),
    rejects: quantity(row.rejectsExact, row.rejectsKg),
    sandKg: quantity(row.sandExact, row.sandKg),
    sandCycle: row.sandCycle,
    newSand: row.newSand,
    crushTest: row.crushTest as TestResult | null,
    crisp: row.crisp as TestResult | null,
    colour: row.colour,
    moistureReading: quantity(row.moistureExact, row.moisture),
    waterActivity: quantity(row.waterActivityExact, row.waterActivity),
    inTime: row.inTime,
  };
}

/** A batch as a record tells it: the file that brought this, and why. */
export type Revised = {
  readonly batch: Batch;
  readonly file: string | null;
  readonly withdrawn: boolean;
  readonly reason: string;
};

/** The other way: what is stored of a batch, column by column. */
export const REVISION: {
  readonly [K in keyof Omit<BatchRow, "ledgerIndex">]: (revised: Revised) => BatchRow[K];
} = {
  batch: ({ batch }) => batch.id,
  site: ({ batch }) => batch.site,
  day: ({ batch }) => batch.day,
  method: ({ batch }) => batch.method,
  grain: ({ batch }) => batch.grain,
  loads: ({ batch }) => batch.loads,
  number: ({ batch }) => batch.number,
  pan: ({ batch }) => batch.pan,
  harvest: ({ batch }) => batch.harvest,
  startMinute: ({ batch }) => batch.startMinute,
  endMinute: ({ batch }) => batch.endMinute,
  freshExact: ({ batch }) => batch.fresh?.exact ?? null,
  freshKg: ({ batch }) => batch.fresh?.value ?? null,
  driedExact: ({ batch }) => batch.dried?.exact ?? null,
  driedKg: ({ batch }) => batch.dried?.value ?? null,
  driedToCome: ({ batch }) => batch.driedToCome,
  minutesExact: ({ batch }) => batch.minutes?.exact ?? null,
  minutes: ({ batch }) => batch.minutes?.value ?? null,
  rejectsExact: ({ batch }) => batch.rejects?.exact ?? null,
  rejectsKg: ({ batch }) => batch.rejects?.value ?? null,
  sandExact: ({ batch }) => batch.sandKg?.exact ?? null,
  sandKg: ({ batch }) => batch.sandKg?.value ?? null,
  sandCycle: ({ batch }) => batch.sandCycle,
  newSand: ({ batch }) => batch.newSand,
  crushTest: ({ batch }) => batch.crushTest,
  crisp: ({ batch }) => batch.crisp,
  colour: ({ batch }) => batch.colour,
  moistureExact: ({ batch }) => batch.moistureReading?.exact ?? null,
  moisture: ({ batch }) => batch.moistureReading?.value ?? null,
  waterActivityExact: ({ batch }) => batch.waterActivity?.exact ?? null,
  waterActivity: ({ batch }) => batch.waterActivity?.value ?? null,
  inTime: ({ batch }) => batch.inTime,
  file: ({ file }) => file,
  withdrawn: ({ withdrawn }) => withdrawn,
  reason: ({ reason }) => reason,
};

function quantity(exact: string | null, value: number | null): Quantity | null {
  return exact === null || value === null ? null : { exact, value };
}

/** Number and day of every numbered batch of a site: what an unbroken series is checked by. */
export async function numberedBatches(tx: Tx, site: number, size: number): Promise<{ number: string; day: string }[]> {
  const latest = await tx
    .selectDistinctOn([batchRevisions.batch], {
      number: batchRevisions.number,
      day: batchRevisions.day,
      withdrawn: batchRevisions.withdrawn,
    })
    .from(batchRevisions)
    .where(and(eq(batchRevisions.site, site), lte(batchRevisions.ledgerIndex, size)))
    .orderBy(batchRevisions.batch, desc(batchRevisions.ledgerIndex));
  return latest.flatMap(({ number, day, withdrawn }) => (number === null || withdrawn ? [] : [{ number, day }]));
}
