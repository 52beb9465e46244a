import { sql } from "drizzle-orm";
import { bigint, check, integer, pgTable, text, timestamp, uuid } from "drizzle-orm/pg-core";

/**
 * One row for each command that changed anything, in the one order there is.
 *
 * `record` is the canonical JSON that was hashed into `leaf` (hex); `peaks` are the hashes of the full subtrees
 * from the left, from which the root of the tree and the next row's peaks follow.
 */
export const ledger = pgTable(
  "ledger",
  {
    index: bigint({ mode: "number" }).primaryKey(),
    at: timestamp({ withTimezone: true, mode: "string" }).notNull(),
    person: uuid().notNull(),
    command: text().notNull(),
    site: integer(),
    record: text().notNull(),
    leaf: text().notNull(),
    peaks: text().array().notNull(),
  },
  (t) => [check("ledger_counts_from_one", sql`${t.index} > 0`)],
);
