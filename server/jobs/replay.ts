import { createReadStream } from "node:fs";
import { readFile } from "node:fs/promises";
import { createInterface } from "node:readline";
import { sealedPath } from "#db/inbox";
import { appendLedger, ledgerHead } from "#db/queries/ledger";
import { insertWritten } from "#db/queries/recorded";
import { insertSealed, type SealedRow } from "#db/queries/sealed";
import type { JournalLine } from "#db/storage";
import type { Store } from "#db/store";
import { digestOf } from "#server/evidence/digest";
import { leafHash, withLeaf } from "#server/evidence/merkle";

/**
 * Builds the ledger and everything it recorded again in an empty database, from the journal of a data folder.
 *
 * Throws when a line does not follow, or when what it says it added is not what its record was hashed over.
 */
export async function replay(store: Store, dataDir: string): Promise<number> {
  const owner = await store.owner();
  let peaks: readonly string[] = [];
  let size = 0;
  try {
    if ((await owner.db.transaction(ledgerHead)).size > 0)
      throw new Error("a journal is replayed into an empty database only");
    for await (const text of createInterface({ input: createReadStream(`${dataDir}/journal/ledger.jsonl`) })) {
      const { changes, ...row } = JSON.parse(text) as Omit<JournalLine, "sealed">;
      const said = JSON.parse(row.record) as { changes: string };
      if (row.index !== size + 1 || leafHash(row.record) !== row.leaf || digestOf(changes) !== said.changes) {
        throw new Error(`journal line ${size + 1} is not what its record says`);
      }
      peaks = withLeaf(peaks, size, row.leaf);
      size++;
      const sealed = await sealedOf(dataDir, row.index);
      const line = { ...row, peaks: [...peaks] };
      await owner.db.transaction(async (tx) => {
        await insertWritten(tx, changes);
        if (sealed.length > 0) await insertSealed(tx, sealed);
        await appendLedger(tx, line);
      });
      await store.storage.settle({ ...line, changes: () => changes, sealed });
    }
    return size;
  } finally {
    await owner.close();
  }
}

/** What was sealed with a record, as far as it was not erased. */
async function sealedOf(dataDir: string, index: number): Promise<SealedRow[]> {
  const text = await readFile(sealedPath(dataDir, index), "utf8").catch(() => "[]");
  return JSON.parse(text) as SealedRow[];
}
