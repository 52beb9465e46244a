import type { ExtractTablesWithRelations } from "drizzle-orm";
import type { PgDatabase, PgQueryResultHKT, PgTransaction } from "drizzle-orm/pg-core";
import type * as schema from "./schema";
import type { Storage } from "./storage";

export type Database = PgDatabase<PgQueryResultHKT, typeof schema>;
export type Tx = PgTransaction<PgQueryResultHKT, typeof schema, ExtractTablesWithRelations<typeof schema>>;

/** An open database with the place where its originals and its journal are kept. */
export interface Store {
  readonly kind: "embedded" | "postgres";
  /** through it `asPerson` opens its transactions; nothing else asks it anything but migrations and sign-in */
  readonly db: Database;
  /** opens the same database as the one who owns its tables; closed by the caller */
  owner(): Promise<{ db: Database; close(): Promise<void> }>;
  readonly storage: Storage;
  close(): Promise<void>;
}
