import type { KnownBatch, Match, MatchRow, Numbering } from "#server/intake/match/matchRows";
import { matchRows } from "#server/intake/match/matchRows";
import type { BatchWritten } from "#server/terms/batch";

const kg = (value: number) => ({ exact: String(value), value });

/** A load of 10 kg in and nothing else, with what the test changes. */
export function load({
  fresh = 10,
  dried = null,
  ...rest
}: Partial<Omit<BatchWritten, "fresh" | "dried">> & {
  fresh?: number | null;
  dried?: number | null;
} = {}): BatchWritten {
  return {
    day: "2031-06-02",
    number: null,
    pan: null,
    startMinute: null,
    harvest: null,
    method: "sand-pan",
    grain: "load",
    loads: 1,
    fresh: fresh === null ? null : kg(fresh),
    dried: dried === null ? null : kg(dried),
    driedToCome: fresh !== null && dried === null,
    minutes: null,
    endMinute: null,
    rejects: null,
    sandKg: null,
    sandCycle: null,
    newSand: null,
    crushTest: null,
    crisp: null,
    colour: null,
    moistureReading: null,
    waterActivity: null,
    ...rest,
  };
}

export function rowsOf(batches: readonly BatchWritten[]): MatchRow[] {
  return batches.map((batch, index) => ({
    key: `Log!${index + 2}`,
    batch,
    driedOnly: batch.fresh === null && batch.dried !== null,
  }));
}

export function knownOf(batches: readonly BatchWritten[]): KnownBatch[] {
  return batches.map((batch, index) => ({ id: `b${index + 1}`, batch, from: "earlier" }));
}

/** Kind and batch of every row, in order: "same b1", "new". */
export function told(matches: readonly Match[]): string[] {
  return matches.map(({ kind, batch }) => (batch === null ? kind : `${kind} ${batch}`));
}

/** Sends files one after the other and gives the batches that then stand, as sorted texts. */
export function standing(files: readonly (readonly BatchWritten[])[], numbering: Numbering): string[] {
  let known: KnownBatch[] = [];
  files.forEach((file, fileAt) => {
    const rows = rowsOf(file);
    const { matches } = matchRows(rows, known, numbering);
    const byId = new Map(known.map((one) => [one.id, one]));
    matches.forEach(({ batch: id, kind }, at) => {
      const written = rows[at]?.batch;
      if (written === undefined || kind === "doubtful") return;
      const before = id === null ? undefined : byId.get(id)?.batch;
      const key = id ?? `f${fileAt}r${at}`;
      const batch = rows[at]?.driedOnly && before ? { ...before, dried: written.dried, driedToCome: false } : written;
      byId.set(key, { id: key, batch, from: `f${fileAt}` });
    });
    known = [...byId.values()];
  });
  return known.map(({ batch }) => JSON.stringify(Object.entries(batch).sort(([a], [b]) => (a < b ? -1 : 1)))).sort();
}
