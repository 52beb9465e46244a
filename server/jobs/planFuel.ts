import type { FuelEntry } from "#db/queries/fuel";
import type { RowRead } from "#server/terms/row";
import { keyOf } from "./planBatches";

export interface FuelPlan {
  readonly revised: ReadonlyMap<string, FuelEntry>;
  /** rows whose fuel line contradicts what another file said of the same day */
  readonly doubtful: ReadonlySet<string>;
}

/**
 * Finds the entry of everything that rows say about fuel.
 *
 * Fuel on a load's row belongs to its batch and changes with it. A line of its own that an earlier file already has,
 * word for word, is that one; one that an earlier file has otherwise for the same day and fuel is held.
 */
export function planFuel(
  site: number,
  file: string,
  rows: readonly RowRead[],
  batchOf: (row: RowRead) => string | null,
  known: readonly FuelEntry[],
  newId: () => string,
): FuelPlan {
  const revised = new Map<string, FuelEntry>();
  const doubtful = new Set<string>();
  const free = new Map<string, FuelEntry[]>();
  for (const entry of known) free.set(entryKey(entry), [...(free.get(entryKey(entry)) ?? []), entry]);
  for (const row of rows) {
    const batch = batchOf(row);
    for (const written of row.fuel) {
      const entry = { site, day: written.day, fuel: written.fuel, batch, said: written.said, file, withdrawn: false };
      const there = free.get(entryKey(entry)) ?? [];
      const equal = there.findIndex(
        (one) => JSON.stringify(inOrder(one.said)) === JSON.stringify(inOrder(written.said)),
      );
      if (equal >= 0) {
        there.splice(equal, 1);
      } else if (batch !== null) {
        const id = there.shift()?.id ?? newId();
        revised.set(id, { ...entry, id });
      } else if (there.some((one) => one.file !== file)) {
        doubtful.add(keyOf(row));
      } else {
        const id = there.shift()?.id ?? newId();
        revised.set(id, { ...entry, id });
      }
    }
  }
  return { revised, doubtful };
}

/** What an entry is found by: its batch, or else its day; with the fuel and the kind of thing said. */
function entryKey(entry: Omit<FuelEntry, "id">): string {
  return [entry.batch ?? entry.day, entry.fuel, entry.said.kind].join(" ");
}

/** The database returns keys in an order of its own. */
function inOrder(said: object): unknown[] {
  return Object.entries(said)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, value]) => [name, value !== null && typeof value === "object" ? inOrder(value) : value]);
}
