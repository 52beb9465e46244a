import { sql } from "drizzle-orm";
import {
  bigint,
  boolean,
  check,
  date,
  doublePrecision,
  index,
  integer,
  pgTable,
  primaryKey,
  text,
  uuid,
} from "drizzle-orm/pg-core";

/**
 * One row each time we learned something about a batch; never changed. Null means that the log did not say.
 * `…Exact` is the decimal as converted, kept for the ledger; the double beside it is for reckoning.
 */
export const batchRevisions = pgTable(
  "batch_revisions",
  {
    batch: uuid().notNull(),
    site: integer().notNull(),
    day: date({ mode: "string" }).notNull(),
    method: text().notNull(),
    grain: text().notNull(),
    loads: integer().notNull(),
    number: text(),
    pan: text(),
    harvest: text(),
    startMinute: integer("start_minute"),
    endMinute: integer("end_minute"),
    freshExact: text("fresh_exact"),
    freshKg: doublePrecision("fresh_kg"),
    driedExact: text("dried_exact"),
    driedKg: doublePrecision("dried_kg"),
    driedToCome: boolean("dried_to_come").notNull(),
    minutesExact: text("minutes_exact"),
    minutes: doublePrecision(),
    rejectsExact: text("rejects_exact"),
    rejectsKg: doublePrecision("rejects_kg"),
    sandExact: text("sand_exact"),
    sandKg: doublePrecision("sand_kg"),
    sandCycle: integer("sand_cycle"),
    newSand: boolean("new_sand"),
    crushTest: text("crush_test"),
    crisp: text(),
    colour: text(),
    moistureExact: text("moisture_exact"),
    moisture: doublePrecision(),
    waterActivityExact: text("water_activity_exact"),
    waterActivity: doublePrecision("water_activity"),
    inTime: boolean("in_time").notNull(),
    /** the file that brought this revision; the first one decides whether the batch was in time */
    file: uuid(),
    withdrawn: boolean().notNull(),
    reason: text().notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({ name: "batch_revisions_come_once_a_record", columns: [t.batch, t.ledgerIndex] }),
    check("batch_revisions_stand_for_loads", sql`${t.loads} > 0`),
    index("batch_revisions_by_day").on(t.site, t.day),
    index("batch_revisions_by_number").on(t.site, t.number),
    index("batch_revisions_in_order_of_days").using("brin", t.day),
    index("batch_revisions_in_order_of_records").using("brin", t.ledgerIndex),
  ],
);
