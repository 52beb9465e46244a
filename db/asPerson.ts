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
 * injected SQL. On PostgreSQL the login role itself cannot bypass it. There the first question follows at once: a
 * connection answers in order, and one that was asked for nobody would find no row.
 */
export async function asPerson<T>(asking: Asking, act: (tx: Tx) => Promise<T>): Promise<T> {
  return asking.store.db.transaction(async (tx) => {
    const person = sql`set_config('evendry.person', ${asking.person}, true)`;
    if (asking.store.kind === "embedded") {
      await tx.execute(sql`select ${person}, set_config('role', 'evendry_app', true)`);
      return act(tx);
    }
    const known = tx.execute(sql`select ${person}`).then(() => null);
    const [said, acted] = await Promise.allSettled([known, act(tx)]);
    if (said.status === "rejected") throw said.reason;
    if (acted.status === "rejected") throw acted.reason;
    return acted.value;
  });
}
