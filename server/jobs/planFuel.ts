import type { FuelEntry } from "#db/queries/fuel";
import { type FuelOn, fuelOn, type RowRead } from "#server/terms/row";
import { keyOf } from "./planBatches";

export interface FuelPlan {
  /** new and changed entries; and those that another file said before and this one says again */
  readonly revised: ReadonlyMap<string, FuelEntry>;
  /** of these, the ones whose fuel, day or amount is another than before */
  readonly changed: ReadonlySet<string>;
  /** of these again, the ones that are in no table yet */
  readonly made: ReadonlySet<string>;
  /** of these, the ones that this file said when it was counted before and does not say any more */
  readonly unsaid: ReadonlySet<string>;
  /** rows whose fuel line contradicts what another file said of the same day */
  readonly doubtful: ReadonlySet<string>;
}

export interface FuelInput {
  readonly site: number;
  readonly file: string;
  readonly rows: readonly RowRead[];
  readonly batchOf: (row: RowRead) => string | null;
  readonly known: readonly FuelEntry[];
  /** files of which some batch came again: a line of theirs that comes otherwise is corrected */
  readonly sentAgain: ReadonlySet<string>;
  /** batches that are withdrawn: the fuel on their rows goes with them */
  readonly withdrawn: ReadonlySet<string>;
  /** batches whose place a set takes, with that set: it has their fuel, unless its own row says how much it was */
  readonly instead: ReadonlyMap<string, string>;
  /** rows, by "sheet!row", that tell a part of what is here as one batch: fuel that this has is not counted once more */
  readonly partly: ReadonlySet<string>;
  /** batches of which other parts of the file speak as well: of the fuel of these just what these rows said is known */
  readonly elsewhere: Pick<ReadonlySet<string>, "has">;
  /** this file was counted before: what it said of these batches, or in lines of its own, and says no more is withdrawn */
  readonly again: boolean;
  readonly newId: () => string;
}

const NO_BATCHES: ReadonlySet<string | null> = new Set();

/**
 * Finds the entry of everything that rows say about fuel.
 *
 * Fuel on a load's row belongs to its batch and changes with it. A line of its own that an earlier file already has,
 * word for word, is that one; one that an earlier file has otherwise for the same day and fuel is its correction where
 * that log is sent again, and else held.
 */
export function planFuel(input: FuelInput): FuelPlan {
  const { file, rows, sentAgain, newId } = input;
  const revised = new Map<string, FuelEntry>();
  const changed = new Set<string>();
  const made = new Set<string>();
  const doubtful = new Set<string>();
  const free = new Map<string, FuelEntry[]>();
  const revise = (entry: FuelEntry) => {
    revised.set(entry.id, entry);
    changed.add(entry.id);
  };
  const newEntry = () => {
    const id = newId();
    made.add(id);
    return id;
  };
  for (const one of input.known) {
    const entry = { ...one, batch: input.instead.get(one.batch ?? "") ?? one.batch };
    if (entry.batch !== one.batch) revise({ ...entry, file });
    if (input.withdrawn.has(entry.batch ?? "")) revise({ ...entry, file, withdrawn: true });
    else free.set(entryKey(entry), [...(free.get(entryKey(entry)) ?? []), entry]);
  }
  const told = new Set<string>();
  for (const row of rows) {
    const batch = input.batchOf(row);
    for (const written of fuelOn(row)) {
      const { day, fuel, said } = written;
      // Where nothing is known, everything is new, and no key is needed.
      const key = free.size === 0 ? "" : entryKey({ batch, day, fuel, said });
      const there = free.get(key);
      told.add(key);
      if (there === undefined) {
        revise(entryOf(input, batch, written, newEntry()));
        continue;
      }
      if (input.partly.has(keyOf(row))) continue;
      const equal = there.findIndex((one) => one.day === day && sameSaid(one.said, said));
      const [same] = equal < 0 ? [] : there.splice(equal, 1);
      const others = there.filter((one) => one.file !== file);
      if (same !== undefined) {
        if (same.file !== file) revised.set(same.id, entryOf(input, batch, written, same.id));
      } else if (batch === null && others.length > 0 && !isCorrected(there, sentAgain)) {
        doubtful.add(keyOf(row));
      } else {
        revise(entryOf(input, batch, written, there.shift()?.id ?? newEntry()));
      }
    }
  }
  const sets = new Set(input.instead.values());
  const unsaid = new Set<string>();
  const whole = input.again ? toldWhole(input) : NO_BATCHES;
  for (const entry of [...free.values()].flat()) {
    const ofLoads = sets.has(entry.batch ?? "") && told.has(entryKey(entry));
    const isTold = entry.batch === null || whole.has(entry.batch) || input.elsewhere.has(entry.batch);
    const noMore = input.again && entry.file === file && isTold;
    if (noMore) unsaid.add(entry.id);
    if (ofLoads || noMore) revise({ ...entry, file, withdrawn: true });
  }
  return { revised, changed, made, unsaid, doubtful };
}

/** The batches of which no row tells just a part: what such a row says of fuel is not compared. */
function toldWhole({ rows, batchOf, partly }: FuelInput): ReadonlySet<string | null> {
  const whole = new Set(rows.map(batchOf));
  if (partly.size > 0) for (const row of rows) if (partly.has(keyOf(row))) whole.delete(batchOf(row));
  return whole;
}

function entryOf({ site, file }: FuelInput, batch: string | null, { day, fuel, said }: FuelOn, id: string): FuelEntry {
  return { id, site, day, fuel, batch, said, file, withdrawn: false };
}

/** One line is left that could be meant, and its log is sent again. */
function isCorrected(there: readonly FuelEntry[], sentAgain: ReadonlySet<string>): boolean {
  return there.length === 1 && there.every(({ file }) => file !== null && sentAgain.has(file));
}

/** What an entry is found by: its batch, or else its day; with the fuel and the kind of thing said. */
function entryKey({ batch, day, fuel, said }: Pick<FuelEntry, "batch" | "day" | "fuel" | "said">): string {
  return `${batch ?? day} ${fuel} ${said.kind}`;
}

function sameSaid(a: FuelEntry["said"], b: FuelEntry["said"]): boolean {
  return JSON.stringify(inOrder(a)) === JSON.stringify(inOrder(b));
}

/** The database returns keys in an order of its own. */
function inOrder(said: object): unknown[] {
  return Object.entries(said)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, value]) => [name, value !== null && typeof value === "object" ? inOrder(value) : value]);
}
