import { asPerson } from "#db/asPerson";
import { everyFile, statesOf } from "#db/queries/files";
import { rowsOfFile } from "#db/queries/rows";
import { held } from "#db/queries/said";
import { canonical, sha256 } from "#server/evidence/canonical";
import type { Bounds, Hints, RowRead } from "#server/terms/row";
import { dayParts } from "./dayParts";
import { type PartsPlan, readWhole } from "./parts";
import { begunAs, type PartStored, partsStored } from "./partsStored";
import { readBytes } from "./readBytes";
import type { Corridor } from "./record";
import { Source } from "./source";
import type { Difference } from "./verify";

/** What storing adds to a row's reasons: it depends on what else was there then, not on the file alone. */
const FROM_STORING = ["site-unknown", "match-doubtful", "dried-without-load"];

/** Looks at every original's bytes, and reads every counted one again as it was read then. */
export async function verifyFiles(
  corridor: Corridor,
  bounds: Bounds,
  note: (difference: Difference) => void,
): Promise<{ files: number; rows: number }> {
  const files = await asPerson(corridor, everyFile);
  let rows = 0;
  for (const file of files) {
    const there = await asPerson(corridor, async (tx) => {
      const states = await statesOf(tx, file.id);
      return {
        bytes: await corridor.store.storage.bytes(tx, file.sha256),
        counted: states.findLast(({ state }) => state === "counted"),
        anew: partsStored(states),
        rows: await rowsOfFile(tx, file.id),
      };
    });
    if (there.bytes === undefined || sha256(there.bytes) !== file.sha256) {
      note({ what: "original", where: `file ${file.id}`, detail: "its bytes are gone or are others" });
      continue;
    }
    if (there.counted === undefined) continue;
    const { hints, parts } = there.counted.detail as { hints: Hints; parts?: PartsPlan };
    const reading =
      parts === undefined
        ? await readBytes({ bytes: there.bytes, hints, bounds })
        : await readWhole(Source.of(there.bytes), parts, hints, bounds);
    if ("refused" in reading) {
      note({ what: "reading", where: `file ${file.id}`, detail: `read again it is refused: ${reading.refused}` });
      continue;
    }
    rows += reading.rows.length;
    const anew = await readAnew(there.anew, there.bytes, bounds);
    const stored = new Map(there.rows.map((row) => [`${row.sheet}!${row.row}`, row]));
    for (const row of reading.rows) {
      const kept = stored.get(`${row.sheet}!${row.row}`);
      if (kept === undefined || !isSame(anew.get(`${row.sheet}!${row.row}`) ?? row, kept))
        note({
          what: "reading",
          where: `file ${file.id}, ${row.sheet} row ${row.row}`,
          detail: "read again it is another row",
        });
    }
    if (stored.size !== reading.rows.length)
      note({
        what: "reading",
        where: `file ${file.id}`,
        detail: `${stored.size} rows are kept, ${reading.rows.length} are read`,
      });
  }
  return { files: files.length, rows };
}

/** The rows of those parts of a log that are counted again already, while others still count as they did before. */
async function readAnew(
  parts: readonly PartStored[],
  bytes: Uint8Array,
  bounds: Bounds,
): Promise<ReadonlyMap<string, RowRead>> {
  const begun = begunAs(parts);
  if (begun === null) return new Map();
  const reading = await readBytes({ bytes, hints: begun.hints, bounds });
  if ("refused" in reading) return new Map();
  const stored = new Set(parts.map(({ part }) => part));
  const rows = dayParts(reading.rows, begun.rowsAPart).flatMap((own, part) => (stored.has(part) ? own : []));
  return new Map(rows.map((row) => [`${row.sheet}!${row.row}`, row]));
}

/**
 * Whether a row that is kept is the one that is read. Storing may only hold a row that would count, and says why; a
 * dried weight that found its load later stands without the remarks of its reading.
 */
function isSame(
  read: RowRead,
  kept: { fate: string; reasons: readonly { code: string }[]; cells: readonly unknown[] },
): boolean {
  const heldByStoring = read.fate === "counted" && kept.reasons.some(({ code }) => FROM_STORING.includes(code));
  const joinedLater = read.driedOnly && kept.reasons.length === 0;
  return (
    kept.fate === (heldByStoring ? "held" : read.fate) &&
    (joinedLater || codesOf(read.reasons) === codesOf(kept.reasons)) &&
    canonical(held(read.cells)) === canonical(kept.cells)
  );
}

function codesOf(reasons: readonly { code: string }[]): string {
  const codes = reasons.map(({ code }) => code).filter((code) => !FROM_STORING.includes(code));
  return codes.sort().join();
}
