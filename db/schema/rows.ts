import { sql } from "drizzle-orm";
import { bigint, boolean, check, index, integer, jsonb, pgTable, primaryKey, text, uuid } from "drizzle-orm/pg-core";

/** One row of a file with its fate; a file read again writes its rows again. `sealed` are commitments only. */
export const rows = pgTable(
  "rows",
  {
    file: uuid().notNull(),
    sheet: text().notNull(),
    row: integer().notNull(),
    site: integer(),
    fate: text().notNull(),
    grain: text(),
    driedOnly: boolean("dried_only").notNull(),
    reasons: jsonb().notNull(),
    cells: jsonb().notNull(),
    /** of a held row: the batch as far as it could be read, for the day on which it can be joined */
    written: jsonb(),
    sealed: text().array().notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    index("rows_that_wait").on(t.site).where(sql`${t.fate} = 'held'`),
    primaryKey({ name: "rows_have_one_fate_a_record", columns: [t.file, t.ledgerIndex, t.sheet, t.row] }),
    index("rows_in_order_of_records").using("brin", t.ledgerIndex),
    check("rows_end_in_one_of_three_ways", sql`${t.fate} in ('counted', 'held', 'set-aside')`),
  ],
);

/** Which rows a batch was read from, and which batches a row speaks of. */
export const rowBatches = pgTable(
  "row_batches",
  {
    file: uuid().notNull(),
    sheet: text().notNull(),
    row: integer().notNull(),
    batch: uuid().notNull(),
    site: integer().notNull(),
    /** "whole", or "dried" for a row that only brought the dried weight */
    part: text().notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({
      name: "row_batches_are_said_once_a_record",
      columns: [t.file, t.ledgerIndex, t.sheet, t.row, t.batch],
    }),
    index("row_batches_by_batch").on(t.batch),
    index("row_batches_in_order_of_records").using("brin", t.ledgerIndex),
  ],
);
