import { bigint, integer, pgTable, text, uuid } from "drizzle-orm/pg-core";

/** Figures frozen when they were published: what was known then, by which edition, and the figures as canonical JSON. */
export const publications = pgTable("publications", {
  id: uuid().primaryKey(),
  site: integer().notNull(),
  month: text().notNull(),
  edition: text().notNull(),
  knownSize: bigint("known_size", { mode: "number" }).notNull(),
  figures: text().notNull(),
  ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
});
