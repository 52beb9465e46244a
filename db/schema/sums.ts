import { bigint, date, doublePrecision, index, integer, json, pgTable, primaryKey, text } from "drizzle-orm/pg-core";

/** Sums of one day, one row each time they changed; rebuilt from the day's batches, never added to. */
export const daySums = pgTable(
  "day_sums",
  {
    site: integer().notNull(),
    day: date({ mode: "string" }).notNull(),
    method: text().notNull(),
    measure: text().notNull(),
    batches: integer().notNull(),
    loads: integer().notNull(),
    num: doublePrecision().notNull(),
    den: doublePrecision().notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({ name: "day_sums_change_once_a_record", columns: [t.site, t.day, t.method, t.measure, t.ledgerIndex] }),
    index("day_sums_in_order_of_records").using("brin", t.ledgerIndex),
  ],
);

/** Day sums merged into a month in the order of days, with the squares that intervals need. */
export const monthSums = pgTable(
  "month_sums",
  {
    month: text().notNull(),
    site: integer().notNull(),
    method: text().notNull(),
    measure: text().notNull(),
    days: integer().notNull(),
    batches: integer().notNull(),
    loads: integer().notNull(),
    num: doublePrecision().notNull(),
    den: doublePrecision().notNull(),
    num2: doublePrecision().notNull(),
    den2: doublePrecision().notNull(),
    numDen: doublePrecision("num_den").notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({
      name: "month_sums_change_once_a_record",
      columns: [t.month, t.site, t.method, t.measure, t.ledgerIndex],
    }),
    index("month_sums_in_order_of_records").using("brin", t.ledgerIndex),
  ],
);

/**
 * The month sums that stand now, a row a site and method, ready to be sent. Nothing is recorded here: a trigger works each
 * row out again from `month_sums` when sums are added, so that reading a month costs the same however often they changed.
 */
export const monthLatest = pgTable(
  "month_latest",
  {
    month: text().notNull(),
    site: integer().notNull(),
    method: text().notNull(),
    /** of each measure that is compared: its name, days, batches, loads, num, den, num2, den2, numDen. Null: emptied */
    sums: json(),
    /** of the record that changed any of them last */
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [primaryKey({ name: "month_latest_is_one_row", columns: [t.month, t.site, t.method] })],
);
