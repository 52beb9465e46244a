import { type BatchRow, batchOf, revisionsOf } from "#db/queries/batches";
import { loadsTakenOut } from "#db/queries/joinedSets";
import type { Tx } from "#db/store";
import { numbersOfSet } from "#server/intake/rows/setsPlain";
import type { Batch } from "#server/terms/batch";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** The loads whose place some batches of a file took, so that they come back where these go. */
export async function membersOf(tx: Tx, site: number, file: string, batches: readonly string[]): Promise<string[]> {
  const first = new Map<string, BatchRow>();
  for (const row of await revisionsOf(tx, batches, EVERYTHING)) if (!first.has(row.batch)) first.set(row.batch, row);
  const sets = [...first.values()].filter((made) => made.file === file && made.loads >= 2);
  const members: string[] = [];
  for (const made of sets) {
    const out = (await loadsTakenOut(tx, site, file, made.ledgerIndex)).map(batchOf);
    members.push(...ofSet(batchOf(made), out).map((load) => load.id));
  }
  return members;
}

function ofSet(set: Batch, out: readonly Batch[]): readonly Batch[] {
  const numbers = numbersOfSet(set.number);
  if (numbers !== null) return out.filter(({ number }) => number !== null && numbers.includes(number));
  return out.filter(({ day, number }) => day === set.day && number === null);
}
