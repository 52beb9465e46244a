import { sql } from "drizzle-orm";
import {
  bigint,
  boolean,
  check,
  index,
  integer,
  pgTable,
  primaryKey,
  text,
  timestamp,
  uuid,
} from "drizzle-orm/pg-core";

/** Who may act, one row each time that was decided; the name is sealed. */
export const people = pgTable(
  "people",
  {
    id: uuid().notNull(),
    role: text().notNull(),
    site: integer(),
    active: boolean().notNull(),
    nameSealed: text("name_sealed"),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({ name: "people_are_decided_once_a_record", columns: [t.id, t.ledgerIndex] }),
    check("people_have_a_known_role", sql`${t.role} in ('operator', 'officer', 'lead', 'auditor')`),
    check("people_who_lead_have_a_site", sql`(${t.role} = 'lead') = (${t.site} is not null)`),
  ],
);

/** Names and passwords to sign in with. Outside the ledger: may be lost, and may be changed. */
export const signIns = pgTable("sign_ins", {
  person: uuid().primaryKey(),
  name: text().notNull().unique("sign_ins_have_their_own_name"),
  passwordHash: text("password_hash"),
  mustChange: boolean("must_change").notNull(),
  resetHash: text("reset_hash"),
  resetUntil: timestamp("reset_until", { withTimezone: true, mode: "string" }),
});

/** Open sessions, by the hash of their token. Outside the ledger. */
export const sessions = pgTable(
  "sessions",
  {
    tokenHash: text("token_hash").primaryKey(),
    person: uuid().notNull(),
    begun: timestamp({ withTimezone: true, mode: "string" }).notNull(),
    seen: timestamp({ withTimezone: true, mode: "string" }).notNull(),
    until: timestamp({ withTimezone: true, mode: "string" }).notNull(),
  },
  (t) => [index("sessions_by_person").on(t.person)],
);

/** Sign-ins that failed, counted by name and by address, to slow guessing down. Outside the ledger. */
export const failures = pgTable("sign_in_failures", {
  key: text().primaryKey(),
  count: integer().notNull(),
  since: timestamp({ withTimezone: true, mode: "string" }).notNull(),
});
