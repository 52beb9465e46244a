import { sql } from "drizzle-orm";
import type { Store, Tx } from "./store";

/** Who asks, and where. */
export interface Asking {
  readonly store: Store;
  readonly person: string;
}

/**
 * The one way to the data: a transaction in which the database knows who asks.
 *
 * The person is set for this transaction alone. On the embedded database, whose session is a superuser, the role is
 * changed as well, so that row-level security holds there; it guards against a forgotten filter, not against
 * injected SQL. On PostgreSQL the login role itself cannot bypass it.
 */
export async function asPerson<T>(asking: Asking, act: (tx: Tx) => Promise<T>): Promise<T> {
  return asking.store.db.transaction(async (tx) => {
    await tx.execute(sql`select set_config('evendry.person', ${asking.person}, true)`);
    if (asking.store.kind === "embedded") await tx.execute(sql`set local role evendry_app`);
    return act(tx);
  });
}
