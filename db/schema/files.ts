import { sql } from "drizzle-orm";
import {
  bigint,
  check,
  customType,
  index,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  text,
  timestamp,
  uuid,
} from "drizzle-orm/pg-core";

const bytea = customType<{ data: Uint8Array; driverData: Uint8Array }>({ dataType: () => "bytea" });

/** A log as it came. `site` null: it belongs to the programme and speaks of several sites. Its name is sealed. */
export const files = pgTable(
  "files",
  {
    id: uuid().primaryKey(),
    site: integer(),
    sha256: text().notNull(),
    bytes: integer().notNull(),
    nameSealed: text("name_sealed").notNull(),
    sentBy: uuid("sent_by").notNull(),
    arrivedAt: timestamp("arrived_at", { withTimezone: true, mode: "string" }).notNull(),
    /** when the sender says it was sent; kept apart, and never reckoned with */
    claimedAt: timestamp("claimed_at", { withTimezone: true, mode: "string" }),
    /** "site" or "message": an officer may bring a log that came another way */
    cameBy: text("came_by").notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [index("files_by_content").on(t.sha256), index("files_by_site").on(t.site, t.ledgerIndex)],
);

/** What became of a file, one row each time: arrived, read, settled, counted, withdrawn. */
export const fileStates = pgTable(
  "file_states",
  {
    file: uuid().notNull(),
    site: integer(),
    state: text().notNull(),
    /** how it was read (hints, answers), its counts and its sending slip */
    detail: jsonb().notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({ name: "file_states_come_once_a_record", columns: [t.file, t.ledgerIndex, t.state] }),
    check("file_states_are_known", sql`${t.state} in ('arrived', 'read', 'settled', 'counted', 'withdrawn')`),
  ],
);

/** The original bytes, where the database keeps them (PostgreSQL). */
export const fileBytes = pgTable("file_bytes", { sha256: text().primaryKey(), bytes: bytea().notNull() });
