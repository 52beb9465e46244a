import type { KnownBatch } from "#db/queries/batches";
import type { WaitingRow } from "#db/queries/rows";
import { type MatchRow, matchRows } from "#server/intake/match/matchRows";
import type { Batch, BatchWritten, Method } from "#server/terms/batch";
import type { RowRead } from "#server/terms/row";

/** What became of a row that speaks of a batch. */
export type Verdict = "new" | "changed" | "same" | "joined" | "doubtful" | "no-load";

export interface Link {
  readonly file: string;
  readonly sheet: string;
  readonly row: number;
  readonly batch: string;
  readonly part: "whole" | "dried";
}

export interface BatchPlan {
  /** new and changed batches, with the file that brought the change */
  readonly revised: ReadonlyMap<string, { readonly batch: Batch; readonly file: string; readonly reason: Verdict }>;
  readonly links: readonly Link[];
  /** by "sheet!row" of this file */
  readonly verdicts: ReadonlyMap<string, Verdict>;
  /** dried weights from earlier files that found their load now */
  readonly joined: readonly WaitingRow[];
  /** batches that an earlier file had on the days of this one, and this one has not; they stay */
  readonly vanished: readonly string[];
}

export interface BatchInput {
  readonly site: number;
  readonly file: string;
  readonly rows: readonly RowRead[];
  readonly known: readonly KnownBatch[];
  readonly waiting: readonly WaitingRow[];
  /** rows of this file that were read into a batch before, by "sheet!row" */
  readonly links: ReadonlyMap<string, string>;
  readonly numbering: "site" | "day";
  readonly inTime: (day: string) => boolean;
  /** how the site dries on a day, where a row does not say */
  readonly methodOn: (day: string) => Method;
  readonly newId: () => string;
}

/**
 * Finds the batch of every row, loads first and dried weights after them, and says what is to be stored.
 *
 * Dried weights that earlier files left without a load are tried again, so it does not matter which of two logs came first.
 */
export function planBatches(input: BatchInput): BatchPlan {
  const now = new Map(input.known.map(({ batch, file }) => [batch.id, { batch, file: file ?? "" }]));
  const revised = new Map<string, { batch: Batch; file: string; reason: Verdict }>();
  const links: Link[] = [];
  const verdicts = new Map<string, Verdict>();
  const revise = (batch: Batch, file: string, reason: Verdict) => {
    now.set(batch.id, { batch, file });
    revised.set(batch.id, { batch, file, reason: revised.get(batch.id)?.reason === "new" ? "new" : reason });
  };
  const link = (row: { sheet: string; row: number }, file: string, batch: string, part: Link["part"]) =>
    links.push({ file, sheet: row.sheet, row: row.row, batch, part });

  const loads = input.rows.filter((row) => row.batch !== null && !row.driedOnly);
  const again = loads.filter((row) => now.has(input.links.get(keyOf(row)) ?? ""));
  const fresh = loads.filter((row) => !now.has(input.links.get(keyOf(row)) ?? ""));
  const { matches, vanished } = matchRows(
    fresh.map((row) => matchRow(row, input.methodOn)),
    knownNow(now),
    input.numbering,
  );
  const found = new Map(matches.map((match) => [match.key, match]));
  for (const row of [...again, ...fresh]) {
    const match = found.get(keyOf(row));
    const written = row.batch;
    if (written === null) continue;
    if (match?.kind === "doubtful") {
      verdicts.set(keyOf(row), "doubtful");
      continue;
    }
    const id = match?.batch ?? input.links.get(keyOf(row)) ?? input.newId();
    const before = now.get(id)?.batch;
    const batch: Batch =
      before === undefined
        ? {
            ...written,
            id,
            site: input.site,
            inTime: input.inTime(written.day),
            method: written.method ?? input.methodOn(written.day),
          }
        : merged(before, written);
    const verdict = before === undefined ? "new" : sameContent(before, batch) ? "same" : "changed";
    if (verdict !== "same") revise(batch, input.file, verdict);
    link(row, input.file, id, "whole");
    verdicts.set(keyOf(row), verdict);
  }

  const mine = input.rows.flatMap((row) =>
    row.driedOnly && row.batch !== null ? [{ key: keyOf(row), ...row, batch: row.batch }] : [],
  );
  const theirs = new Map(input.waiting.map((row) => [`${row.file} ${keyOf(row)}`, row]));
  const dried = matchRows(
    [...mine, ...[...theirs].map(([key, { batch }]) => ({ key, batch }))].map(({ key, batch }) => ({
      key,
      batch,
      driedOnly: true,
    })),
    knownNow(now),
    input.numbering,
  );
  const joined: WaitingRow[] = [];
  for (const { key, kind, batch: id } of dried.matches) {
    const theirRow = theirs.get(key);
    const row = theirRow ?? mine.find((one) => one.key === key);
    const before = id === null ? undefined : now.get(id)?.batch;
    if (row === undefined) continue;
    const finds = before !== undefined && (kind === "joins-dried" || kind === "same");
    if (finds) {
      const file = theirRow?.file ?? input.file;
      if (kind === "joins-dried") revise({ ...before, dried: row.batch.dried, driedToCome: false }, file, "joined");
      link(row, file, before.id, "dried");
    }
    if (theirRow === undefined) verdicts.set(key, !finds ? "no-load" : kind === "same" ? "same" : "joined");
    else if (finds) joined.push(theirRow);
  }
  // Loads weighed together are one batch, and every row of them is one of the rows it was read from.
  const whole = new Map(links.filter(({ file }) => file === input.file).map((one) => [keyOf(one), one.batch]));
  for (const row of input.rows) {
    const batch = row.countsWith === undefined ? undefined : whole.get(keyOf(row.countsWith));
    if (batch !== undefined) link(row, input.file, batch, "whole");
  }
  return { revised, links, verdicts, joined, vanished };
}

export function keyOf(row: { readonly sheet: string; readonly row: number }): string {
  return `${row.sheet}!${row.row}`;
}

function matchRow(row: RowRead, methodOn: (day: string) => Method): MatchRow {
  if (row.batch === null) throw new Error(`row ${keyOf(row)} is matched without a batch`);
  const method = row.batch.method ?? methodOn(row.batch.day);
  return { key: keyOf(row), batch: { ...row.batch, method }, driedOnly: row.driedOnly };
}

function knownNow(now: ReadonlyMap<string, { batch: Batch; file: string }>) {
  return [...now.values()].map(({ batch, file }) => ({ id: batch.id, batch, from: file }));
}

/** What a later row says stands; what it does not say stays as it was. */
function merged(before: Batch, written: BatchWritten): Batch {
  const said = Object.fromEntries(Object.entries(written).filter(([, value]) => value !== null));
  const batch = { ...before, ...said, id: before.id, site: before.site, inTime: before.inTime };
  return { ...batch, driedToCome: batch.dried === null && (before.driedToCome || written.driedToCome) };
}

function sameContent(a: Batch, b: Batch): boolean {
  return JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
}

function sorted(batch: Batch): [string, unknown][] {
  return Object.entries(batch).sort(([a], [b]) => (a < b ? -1 : 1));
}
