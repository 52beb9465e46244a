import { asPerson } from "#db/asPerson";
import { everyFile, statesOf } from "#db/queries/files";
import { rowsOfFile } from "#db/queries/rows";

import { canonical, sha256 } from "#server/evidence/canonical";
import { holds } from "#server/terms/problem";
import type { Bounds, Hints, RowRead } from "#server/terms/row";
import { readBytes } from "./readBytes";
import type { Corridor } from "./record";
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
    const there = await asPerson(corridor, async (tx) => ({
      bytes: await corridor.store.storage.bytes(tx, file.sha256),
      counted: (await statesOf(tx, file.id)).findLast(({ state }) => state === "counted"),
      rows: await rowsOfFile(tx, file.id),
    }));
    if (there.bytes === undefined || sha256(there.bytes) !== file.sha256) {
      note({ what: "original", where: `file ${file.id}`, detail: "its bytes are gone or are others" });
      continue;
    }
    if (there.counted === undefined) continue;
    const { hints } = there.counted.detail as { hints: Hints };
    const reading = await readBytes({ bytes: there.bytes, hints, bounds });
    if ("refused" in reading) {
      note({ what: "reading", where: `file ${file.id}`, detail: `read again it is refused: ${reading.refused}` });
      continue;
    }
    rows += reading.rows.length;
    const stored = new Map(there.rows.map((row) => [`${row.sheet}!${row.row}`, row]));
    for (const row of reading.rows) {
      const kept = stored.get(`${row.sheet}!${row.row}`);
      if (kept === undefined || !isSame(row, kept))
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

function isSame(
  read: RowRead,
  kept: { fate: string; reasons: readonly { code: string }[]; cells: readonly unknown[] },
): boolean {
  const codes = (reasons: readonly { code: string }[]) =>
    reasons
      .map(({ code }) => code)
      .filter((code) => !FROM_STORING.includes(code))
      .sort()
      .join();
  const settled =
    kept.reasons.some(({ code }) => FROM_STORING.includes(code)) || (read.driedOnly && kept.fate !== read.fate);
  const joinedLater = kept.reasons.length === 0 && read.driedOnly;
  const sameFate = settled || kept.fate === read.fate || read.reasons.some(({ code }) => holds(code));
  return (
    sameFate &&
    (joinedLater || codes(read.reasons) === codes(kept.reasons)) &&
    canonical(asJson(read.cells)) === canonical(kept.cells)
  );
}

/** What the database holds of a text: no NUL, no half of a pair. */
function asJson(value: unknown): unknown {
  return JSON.parse(
    JSON.stringify(value, (_key, one) =>
      typeof one === "string" ? one.toWellFormed().replaceAll("\u0000", "\u2400") : one,
    ),
  );
}
