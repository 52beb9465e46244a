import { knownOn } from "#db/queries/ledger";
import type { Store, Tx } from "#db/store";
import type { Person } from "#server/terms/person";
import { inboxOf } from "./inbox";

interface Counted {
  readonly size: number;
  readonly count: number;
}

/** The last count of each who may see something else, of a store: it changes with the ledger alone. */
const kept = new WeakMap<Store, Map<string, Counted>>();

/**
 * How many stories of single sites wait for an answer, by what is watched until now.
 *
 * It stands on every page, so it watches nothing itself, and reads signals again only when the ledger has grown.
 */
export async function waitingFor(store: Store, tx: Tx, person: Person): Promise<number> {
  const { ledgerSize } = await knownOn(tx, null);
  const mine = kept.get(store) ?? new Map<string, Counted>();
  kept.set(store, mine);
  const who = String(person.site ?? "all");
  const before = mine.get(who);
  if (before?.size === ledgerSize) return before.count;
  const { open } = await inboxOf(tx, ledgerSize, person);
  const count = open.filter(({ site, partOf }) => site !== null && partOf === null).length;
  mine.set(who, { size: ledgerSize, count });
  return count;
}
