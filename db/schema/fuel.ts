import { sql } from "drizzle-orm";
import {
  bigint,
  boolean,
  date,
  doublePrecision,
  index,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  text,
  uuid,
} from "drizzle-orm/pg-core";

/** What was written about fuel, one row each time: an amount, a cylinder put on, a weighing, a declared span. */
export const fuelEntries = pgTable(
  "fuel_entries",
  {
    id: uuid().notNull(),
    site: integer().notNull(),
    day: date({ mode: "string" }).notNull(),
    fuel: text().notNull(),
    /** the batch whose row said it; null for a line of its own */
    batch: uuid(),
    said: jsonb().notNull(),
    file: uuid(),
    withdrawn: boolean().notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({ name: "fuel_entries_come_once_a_record", columns: [t.id, t.ledgerIndex] }),
    index("fuel_entries_by_day").on(t.site, t.day),
    index("fuel_entries_by_batch").on(t.batch),
    index("fuel_entries_by_file").on(t.file),
    // What a cylinder's spans reach between: cylinders put on, and weights that stand alone.
    index("fuel_entries_in_chain")
      .on(t.site, t.fuel, t.day)
      .where(
        sql`${t.said} ->> 'kind' = 'cylinder-change' or (${t.said} ->> 'kind' = 'gross' and (${t.said} ->> 'before' is null or ${t.said} ->> 'after' is null))`,
      ),
  ],
);

/** Fuel burned over days, worked out from the entries and rebuilt when one changes. `gone`: no longer so. */
export const fuelSpans = pgTable(
  "fuel_spans",
  {
    site: integer().notNull(),
    from: date("from_day", { mode: "string" }).notNull(),
    to: date("to_day", { mode: "string" }).notNull(),
    fuel: text().notNull(),
    how: text().notNull(),
    unit: text().notNull(),
    low: doublePrecision(),
    best: doublePrecision(),
    high: doublePrecision(),
    shared: boolean().notNull(),
    gone: boolean().notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({
      name: "fuel_spans_change_once_a_record",
      columns: [t.site, t.from, t.to, t.fuel, t.how, t.unit, t.ledgerIndex],
    }),
    index("fuel_spans_by_end").on(t.site, t.to, t.from),
    index("fuel_spans_still_open").on(t.site, t.from).where(sql`${t.how} = 'pending'`),
  ],
);
