import { asPerson } from "#db/asPerson";
import { knownOn, recordsAfter } from "#db/queries/ledger";
import { everyPublication } from "#db/queries/publications";
import { changesOf } from "#db/queries/recorded";
import { allSites } from "#db/queries/sites";
import { canonical } from "#server/evidence/canonical";
import { digestOf } from "#server/evidence/digest";
import { leafHash, rootOf, withLeaf } from "#server/evidence/merkle";
import type { Bounds } from "#server/terms/row";
import { figuresOf } from "./figures";
import type { Corridor } from "./record";
import { verifyFiles } from "./verifyFiles";
import { verifySignals } from "./verifySignals";
import { verifySums } from "./verifySums";

/** Something that is not as it was recorded. */
export interface Difference {
  readonly what: "ledger" | "original" | "reading" | "sum" | "fuel" | "publication" | "signal";
  readonly where: string;
  readonly detail: string;
}

export interface Verified {
  readonly root: string;
  readonly checked: {
    readonly records: number;
    readonly files: number;
    readonly rows: number;
    readonly daySums: number;
    readonly publications: number;
    readonly signals: number;
  };
  readonly differences: readonly Difference[];
}

/**
 * Recomputes everything from the originals: every record's hash and place in the tree, every file's bytes, every row as
 * it is read today, every sum from its batches, every published figure as it was known then, every signal. Names each difference.
 */
export async function verify(corridor: Corridor, bounds: Bounds): Promise<Verified> {
  const differences: Difference[] = [];
  const note = (difference: Difference) => differences.push(difference);
  const { size, root } = await verifyLedger(corridor, note);
  const { files, rows } = await verifyFiles(corridor, bounds, note);
  const daySums = await verifySums(corridor, note);
  const publications = await verifyPublications(corridor, note);
  const signals = await verifySignals(corridor, note);
  return { root, checked: { records: size, files, rows, daySums, publications, signals }, differences };
}

async function verifyLedger(
  corridor: Corridor,
  note: (difference: Difference) => void,
): Promise<{ size: number; root: string }> {
  let peaks: string[] = [];
  let size = 0;
  for (;;) {
    const more = await asPerson(corridor, async (tx) => {
      const records = await recordsAfter(tx, size, 50);
      for (const record of records) {
        const where = `record ${record.index}`;
        if (record.index !== size + 1) note({ what: "ledger", where, detail: `follows record ${size}` });
        const leaf = leafHash(record.record);
        peaks = withLeaf(peaks, size, leaf);
        size++;
        if (leaf !== record.leaf || peaks.join() !== record.peaks.join())
          note({ what: "ledger", where, detail: "its hash is another" });
        const said = JSON.parse(record.record) as { changes: string; index: number; command: string };
        if (said.index !== record.index || said.command !== record.command)
          note({ what: "ledger", where, detail: "it says something else of itself" });
        if (digestOf(await changesOf(tx, record.index)) !== said.changes)
          note({ what: "ledger", where, detail: "what it added is not what the tables hold" });
      }
      return records.length > 0;
    });
    if (!more) return { size, root: rootOf(peaks) };
  }
}

async function verifyPublications(corridor: Corridor, note: (difference: Difference) => void): Promise<number> {
  return asPerson(corridor, async (tx) => {
    const published = await everyPublication(tx);
    const sites = new Map((await allSites(tx)).map((site) => [site.id, site]));
    for (const { site: id, month, knownSize, figures, ledgerIndex } of published) {
      const site = sites.get(id);
      if (site === undefined) continue;
      const then = (JSON.parse(figures) as { figures: Record<string, { asKnownOn: { time: string | null } }> }[])[0];
      const time = Object.values(then?.figures ?? {})[0]?.asKnownOn.time ?? (await knownOn(tx, null)).time;
      const again = canonical(await figuresOf(tx, site, month, month, { ledgerSize: knownSize, time }));
      if (again !== figures)
        note({
          what: "publication",
          where: `${site.code} ${month}, record ${ledgerIndex}`,
          detail: "worked out again, the figures are others",
        });
    }
    return published.length;
  });
}
