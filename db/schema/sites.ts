import { bigint, date, integer, jsonb, pgTable, primaryKey, text } from "drizzle-orm/pg-core";

/** A place that dries larvae. Everything else about it is a fact with dates. */
export const sites = pgTable("sites", {
  id: integer().primaryKey(),
  code: text().notNull().unique("sites_have_their_own_code"),
  ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
});

/** What was declared about a site, one row a declaration; never changed. Site 0 is the programme itself. */
export const facts = pgTable(
  "facts",
  {
    site: integer().notNull(),
    kind: text().notNull(),
    key: text().notNull(),
    from: date("from_day", { mode: "string" }).notNull(),
    to: date("to_day", { mode: "string" }),
    value: jsonb(),
    declaredOn: date("declared_on", { mode: "string" }).notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({ name: "facts_are_said_once_a_record", columns: [t.site, t.kind, t.key, t.from, t.ledgerIndex] }),
  ],
);
