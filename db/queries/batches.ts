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

/** The other way: what is stored of a batch. */
export function revisionOf(
  batch: Batch,
  about: { readonly file: string | null; readonly withdrawn: boolean; readonly reason: string },
): Omit<BatchRow, "ledgerIndex"> {
  return {
    batch: batch.id,
    site: batch.site,
    day: batch.day,
    method: batch.method,
    grain: batch.grain,
    loads: batch.loads,
    number: batch.number,
    pan: batch.pan,
    harvest: batch.harvest,
    startMinute: batch.startMinute,
    endMinute: batch.endMinute,
    freshExact: batch.fresh?.exact ?? null,
    freshKg: batch.fresh?.value ?? null,
    driedExact: batch.dried?.exact ?? null,
    driedKg: batch.dried?.value ?? null,
    driedToCome: batch.driedToCome,
    minutesExact: batch.minutes?.exact ?? null,
    minutes: batch.minutes?.value ?? null,
    rejectsExact: batch.rejects?.exact ?? null,
    rejectsKg: batch.rejects?.value ?? null,
    sandExact: batch.sandKg?.exact ?? null,
    sandKg: batch.sandKg?.value ?? null,
    sandCycle: batch.sandCycle,
    newSand: batch.newSand,
    crushTest: batch.crushTest,
    crisp: batch.crisp,
    colour: batch.colour,
    moistureExact: batch.moistureReading?.exact ?? null,
    moisture: batch.moistureReading?.value ?? null,
    waterActivityExact: batch.waterActivity?.exact ?? null,
    waterActivity: batch.waterActivity?.value ?? null,
    inTime: batch.inTime,
    file: about.file,
    withdrawn: about.withdrawn,
    reason: about.reason,
  };
}

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
