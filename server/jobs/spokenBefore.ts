import { type BatchRow, batchOf, type KnownBatch, revisionsOf } from "#db/queries/batches";
import { writtenThen } from "#db/queries/fileLinks";
import { lastSayings, type SayingRow } from "#db/queries/sayings";
import type { Tx } from "#db/store";
import type { BatchWritten } from "#server/terms/batch";
import type { Link } from "./countedBefore";
import { isWhyOut, keyOf } from "./planBatches";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** What a file's rows said when it was last counted, by "sheet!row", and what became of their batches since. */
export interface SpokenBefore {
  readonly links: ReadonlyMap<string, string>;
  readonly said: ReadonlyMap<string, BatchWritten>;
  /** batches that a person withdrew, or whose place a set took */
  readonly takenOut: ReadonlySet<string>;
  /** batches that stand, beside those known already */
  readonly elsewhere: readonly KnownBatch[];
}

/** What there is of a file that was not counted before. */
export const NOT_BEFORE: SpokenBefore = { links: new Map(), said: new Map(), takenOut: new Set(), elsewhere: [] };

type Saying = Omit<Link, "site"> & Pick<SayingRow, "written">;

/** What a file said when it was last counted. Empty for one that was not counted before. */
export async function spokenBefore(tx: Tx, site: number, file: string, near: readonly KnownBatch[]) {
  return spoken(tx, await lastSayings(tx, site, file), near);
}

/** The same for some rows of a file that is counted again part by part. */
export async function spokenByRows(
  tx: Tx,
  file: string,
  links: readonly Link[],
  near: readonly KnownBatch[],
): Promise<SpokenBefore> {
  const written = new Map((await writtenThen(tx, file, links)).map((row) => [keyOf(row), row.written]));
  const sayings = links.map((link) => ({ ...link, written: written.get(keyOf(link)) ?? null }));
  return spoken(tx, sayings, near);
}

async function spoken(tx: Tx, sayings: readonly Saying[], near: readonly KnownBatch[]): Promise<SpokenBefore> {
  const links = new Map(sayings.map((one) => [keyOf(one), one.batch]));
  const said = new Map<string, BatchWritten>();
  if (sayings.length === 0) return { links, said, takenOut: new Set(), elsewhere: [] };
  const history = await revisionsOf(tx, [...new Set(links.values())], EVERYTHING);
  for (const one of sayings) {
    const written = one.part === "part" ? null : (one.written ?? broughtBy(one, history));
    if (written !== null) said.set(keyOf(one), written);
  }
  const here = new Set(near.map(({ batch }) => batch.id));
  const now = [...new Map(history.map((row) => [row.batch, row])).values()];
  return {
    links,
    said,
    takenOut: new Set(now.flatMap((row) => (row.withdrawn && isWhyOut(row.reason) ? [row.batch] : []))),
    elsewhere: now
      .filter((row) => !row.withdrawn && !here.has(row.batch))
      .map((row) => ({ batch: batchOf(row), file: row.file, withdrawn: false, ledgerIndex: row.ledgerIndex })),
  };
}

/** What a row said is what it made of its batch; null for a row that only tells a part or a sum of others. */
function broughtBy({ batch, at }: Saying, history: readonly BatchRow[]): BatchWritten | null {
  const made = history.find((row) => row.batch === batch && row.ledgerIndex === at);
  if (made === undefined) return null;
  const { id: _id, site: _site, inTime: _inTime, ...written } = batchOf(made);
  return written;
}
