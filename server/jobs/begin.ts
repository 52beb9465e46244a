import { ledgerHead } from "#db/queries/ledger";
import type { Store } from "#db/store";
import { OPERATOR } from "#server/terms/person";
import { append } from "./record";

/** The first record of every ledger: the operator, who may then add everybody else. Does nothing on a ledger that has begun. */
export async function begin(store: Store, clock: () => Date): Promise<void> {
  const owner = await store.owner();
  try {
    const line = await owner.db.transaction(async (tx) => {
      if ((await ledgerHead(tx)).size > 0) return null;
      const changes = {
        people: [{ id: OPERATOR.id, role: OPERATOR.role, site: null, active: true, nameSealed: null }],
      };
      return append(tx, OPERATOR.id, clock(), { command: "begin", site: null, changes });
    });
    if (line !== null) await store.storage.settle(line);
  } finally {
    await owner.close();
  }
}
