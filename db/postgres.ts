import { drizzle } from "drizzle-orm/postgres-js";
import postgres from "postgres";
import { CannotStart } from "#server/cannotStart";
import { bytesInDatabase } from "./bytesInDatabase";
import { migrateAsOwner } from "./migrate";
import * as schema from "./schema";
import type { Store } from "./store";

const OLDEST = 15;
// a plan that was made for other values may suit these badly
const session = {
  TimeZone: "UTC",
  plan_cache_mode: "force_custom_plan",
  lock_timeout: 20_000,
  idle_in_transaction_session_timeout: 60_000,
};

/**
 * Opens PostgreSQL through the login role of `url`, migrated through the owner of `ownerUrl`.
 *
 * Throws CannotStart, in one sentence, when it cannot be reached, is too old, or when the login role is one that no
 * access rule could hold: a superuser, a role that bypasses row-level security, or the owner of the tables.
 */
export async function openPostgres(url: string, ownerUrl: string | null): Promise<Store> {
  const client = postgres(url, { max: 10, onnotice: () => {}, connection: session, connect_timeout: 10 });
  const db = drizzle(preparing(client), { schema });
  try {
    const login = await loginOf(client);
    if (ownerUrl !== null) {
      const owner = postgres(ownerUrl, {
        max: 1,
        onnotice: () => {},
        connection: { TimeZone: "UTC" },
        connect_timeout: 10,
      });
      await migrateAsOwner(drizzle(owner, { schema }), login).finally(() => owner.end());
    }
    await refuseOwner(client, login);
    return {
      kind: "postgres",
      db,
      storage: bytesInDatabase(),
      owner: async () => {
        if (ownerUrl === null)
          throw new CannotStart("Set DATABASE_OWNER_URL to the address of the role that owns the tables.");
        const owner = postgres(ownerUrl, { max: 1, onnotice: () => {}, connection: { TimeZone: "UTC" } });
        return { db: drizzle(owner, { schema }), close: () => owner.end() };
      },
      close: () => client.end({ timeout: 5 }),
    };
  } catch (trouble) {
    await client.end({ timeout: 1 }).catch(() => {});
    throw trouble instanceof CannotStart ? trouble : unreachable(trouble);
  }
}

type Asks = Pick<postgres.TransactionSql & postgres.Sql, "unsafe" | "begin" | "savepoint">;

/**
 * What the ORM asks stays prepared under a name on its connection: a statement with values that is not is sent twice,
 * and each time somebody waits for the server and for a turn of this thread.
 */
function preparing<T extends object>(client: T): T {
  const { unsafe, begin, savepoint } = client as unknown as Asks;
  return Object.assign(client, {
    unsafe: (...[text, values, options]: Parameters<Asks["unsafe"]>) =>
      unsafe(text, values, { ...options, prepare: true }),
    begin: (act: (tx: object) => unknown) => begin((tx) => act(preparing(tx))),
    savepoint: (act: (tx: object) => unknown) => savepoint((tx) => act(preparing(tx))),
  });
}

async function loginOf(client: postgres.Sql): Promise<string> {
  const [told] = await client<{ version: number; login: string; mighty: boolean }[]>`
    select current_setting('server_version_num')::int as version, current_user::text as login,
           (select rolsuper or rolbypassrls from pg_roles where rolname = current_user) as mighty`;
  if (told === undefined) throw new Error("the database did not say who we are");
  const major = Math.floor(told.version / 10_000);
  if (major < OLDEST) throw new CannotStart(`The database is PostgreSQL ${major}; Evendry needs ${OLDEST} or newer.`);
  if (told.mighty) {
    throw new CannotStart(
      `DATABASE_URL signs in as "${told.login}", which bypasses every access rule. Make an ordinary login role for Evendry and put the owner's address into DATABASE_OWNER_URL.`,
    );
  }
  return told.login;
}

async function refuseOwner(client: postgres.Sql, login: string): Promise<void> {
  const [table] = await client<
    { owner: string }[]
  >`select tableowner as owner from pg_tables where schemaname = 'public' and tablename = 'ledger'`;
  if (table === undefined)
    throw new CannotStart(
      "The database is empty. Set DATABASE_OWNER_URL to the address of a role that may make tables.",
    );
  if (table.owner === login) {
    throw new CannotStart(
      `DATABASE_URL signs in as "${login}", which owns the tables and so bypasses their access rules. Sign in as another role and put the owner's address into DATABASE_OWNER_URL.`,
    );
  }
}

function unreachable(trouble: unknown): Error {
  const code = trouble instanceof Error && "code" in trouble ? String(trouble.code) : "";
  if (/^(ECONN|ENOTFOUND|EHOST|ETIMEDOUT|CONNECT|ENOENT|EAI)/.test(code)) {
    return new CannotStart(`The database at DATABASE_URL does not answer (${code}). Start it, or correct the address.`);
  }
  if (/^(28|3D)/.test(code))
    return new CannotStart(
      `The database at DATABASE_URL refused the sign-in (${code}). Correct its user, password or database name.`,
    );
  return trouble instanceof Error ? trouble : new Error(String(trouble));
}
