import { join } from "node:path";
import { sql } from "drizzle-orm";
import type { PgliteDatabase } from "drizzle-orm/pglite";
import { migrate as migratePglite } from "drizzle-orm/pglite/migrator";
import type { PostgresJsDatabase } from "drizzle-orm/postgres-js";
import { migrate as migratePostgres } from "drizzle-orm/postgres-js/migrator";
import { rowsOf } from "./rowsOf";
import type * as schema from "./schema";
import type { Database } from "./store";

const migrationsFolder = join(/*turbopackIgnore: true*/ process.cwd(), "db/migrations");

export async function migrateEmbedded(db: Database): Promise<void> {
  await migratePglite(db as PgliteDatabase<typeof schema>, { migrationsFolder });
  const there = rowsOf(await db.execute(sql`select 1 from pg_roles where rolname = 'evendry_app'`));
  if (there.length === 0) await db.execute(sql`create role evendry_app nologin`);
  await grant(db, "evendry_app");
}

/** Migrates as the owner and lets `login`, the role that the programme signs in with, read and add. */
export async function migrateAsOwner(db: PostgresJsDatabase<typeof schema>, login: string): Promise<void> {
  await db.execute(sql`select pg_advisory_lock(4711)`);
  await migratePostgres(db, { migrationsFolder });
  await grant(db, login);
  await db.execute(sql`select pg_advisory_unlock(4711)`);
}

async function grant(db: Database, role: string): Promise<void> {
  const to = sql.identifier(role);
  await db.execute(sql`grant usage on schema public to ${to}`);
  await db.execute(sql`grant select, insert on all tables in schema public to ${to}`);
  // Sign-in alone may be changed, because nothing rests on it.
  await db.execute(sql`grant update, delete on sign_ins, sessions, sign_in_failures to ${to}`);
  await db.execute(sql`grant delete on sealed to ${to}`);
}
