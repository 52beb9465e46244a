import { fileById } from "#db/queries/files";
import { rowsOfFile } from "#db/queries/rows";
import { eraseSealed, type SealedRow } from "#db/queries/sealed";
import { type Corridor, record } from "./record";

/**
 * Erases what a log said beside its figures: its name, and the names, remarks and unread cells of its rows. Figures, rows
 * and the ledger still add up, because they hold commitments alone. The original bytes stay: they are evidence.
 */
export async function eraseBesides(corridor: Corridor, file: string, reason: string): Promise<number> {
  let left: ReadonlyMap<number, readonly SealedRow[]> = new Map();
  const erased = await record<number>(corridor, async (tx) => {
    const now = await fileById(tx, file);
    if (now === undefined) throw new Error(`file ${file} is not here`);
    const commitments = [now.file.nameSealed, ...(await rowsOfFile(tx, file)).flatMap(({ sealed }) => sealed)];
    left = await eraseSealed(tx, commitments);
    return {
      command: "erase",
      site: now.file.site,
      about: { file, reason, values: commitments.length },
      changes: {},
      answer: () => commitments.length,
    };
  });
  await corridor.store.storage.forget(left);
  return erased;
}
