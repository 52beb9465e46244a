import { bigint, index, integer, pgTable, text } from "drizzle-orm/pg-core";

/**
 * Names, remarks and cells that we do not read. The rest of the database knows only the commitment,
 * so a row here can be erased and everything else still adds up.
 */
export const sealed = pgTable(
  "sealed",
  {
    commitment: text().primaryKey(),
    salt: text().notNull(),
    value: text().notNull(),
    site: integer(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [index("sealed_by_record").on(t.ledgerIndex)],
);
