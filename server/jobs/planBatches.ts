import type { KnownBatch } from "#db/queries/batches";
import type { WaitingRow } from "#db/queries/rows";
import { type Match, type MatchRow, matchRows } from "#server/intake/match/matchRows";
import { sameContent, told, toldAnew, toldFirst } from "#server/intake/match/tell";
import type { Batch, BatchWritten, Method } from "#server/terms/batch";
import type { RowRead } from "#server/terms/row";
import { joinedAsSaid, joinedBefore } from "./joinedAsSaid";

/** What became of a row that speaks of a batch. */
export type Verdict = "new" | "changed" | "same" | "joined" | "doubtful" | "no-load";

export interface Link {
  readonly site: number;
  readonly file: string;
  readonly sheet: string;
  readonly row: number;
  readonly batch: string;
  /** "part": the row tells a part or the sum of what other rows told */
  readonly part: "whole" | "dried" | "part";
}

/** Why a batch that stood does not stand any more. */
export type WhyOut = "not-sent-again" | "weighed-together";

export function isWhyOut(reason: string): reason is WhyOut {
  return reason === "not-sent-again" || reason === "weighed-together";
}

export interface BatchPlan {
  /** new and changed batches, with the file that brought the change */
  readonly revised: ReadonlyMap<string, { readonly batch: Batch; readonly file: string; readonly reason: Verdict }>;
  /** batches that a person withdrew with this log, or whose place a set takes */
  readonly out: ReadonlyMap<string, { readonly batch: Batch; readonly why: WhyOut; readonly instead: string | null }>;
  readonly links: readonly Link[];
  /** the batch of each row of this file, by "sheet!row" */
  readonly batchOf: ReadonlyMap<string, string>;
  /** by "sheet!row" of this file */
  readonly verdicts: ReadonlyMap<string, Verdict>;
  /** of doubtful rows, the batches that each may be, by "sheet!row" */
  readonly mayBe: ReadonlyMap<string, readonly string[]>;
  /** rows whose batch is not just what they say: what they say is kept with them, by "sheet!row" */
  readonly sayings: ReadonlyMap<string, BatchWritten>;
  /** rows that tell a part or a sum of batches that are here, by "sheet!row" */
  readonly partly: ReadonlySet<string>;
  /** dried weights from earlier files that found their load now */
  readonly joined: readonly WaitingRow[];
  /** batches that an earlier file had on the days of this one, and this one has not; they stay unless taken out */
  readonly vanished: readonly string[];
}

export interface BatchInput {
  readonly site: number;
  readonly file: string;
  readonly rows: readonly RowRead[];
  readonly known: readonly KnownBatch[];
  readonly waiting: readonly WaitingRow[];
  /** batches that other parts of this file have spoken of: equal loads of one file stay apart */
  readonly ofOtherParts?: ReadonlySet<string>;
  /** rows of this file that were read into a batch before, by "sheet!row" */
  readonly links: ReadonlyMap<string, string>;
  /** what these rows said then */
  readonly saidBefore: ReadonlyMap<string, BatchWritten>;
  /** batches of these rows that somebody took out since */
  readonly takenOut: ReadonlySet<string>;
  /** what persons said that doubtful rows are, by "sheet!row" */
  readonly are: Readonly<Record<string, string>>;
  /** vanished batches that a person wants withdrawn */
  readonly withdraw: ReadonlySet<string>;
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
  const plan = {
    revised: new Map<string, { batch: Batch; file: string; reason: Verdict }>(),
    out: new Map<string, { batch: Batch; why: WhyOut; instead: string | null }>(),
    links: [] as Link[],
    batchOf: new Map<string, string>(),
    verdicts: new Map<string, Verdict>(),
    mayBe: new Map<string, readonly string[]>(),
    sayings: new Map<string, BatchWritten>(),
    partly: new Set<string>(),
    joined: [] as WaitingRow[],
  };
  const { revised, out, links, batchOf, verdicts, mayBe, sayings, partly, joined } = plan;
  const revise = (batch: Batch, file: string, reason: Verdict) => {
    const known = { batch, file, reason: revised.get(batch.id)?.reason === "new" ? "new" : reason };
    now.set(batch.id, known);
    revised.set(batch.id, known);
  };
  const takeOut = (id: string, why: WhyOut, instead: string | null) => {
    const batch = now.get(id)?.batch;
    if (batch === undefined) return;
    now.delete(id);
    out.set(id, { batch, why, instead });
  };
  const link = ({ sheet, row }: RowRead | WaitingRow, file: string, batch: string, part: Link["part"]) => {
    links.push({ site: input.site, file, sheet, row, batch, part });
    if (file === input.file) batchOf.set(keyOf({ sheet, row }), batch);
  };

  const linked = (key: string) => {
    const id = input.links.get(key);
    return id !== undefined && input.saidBefore.has(key) && (now.has(id) || input.takenOut.has(id)) ? id : null;
  };
  const loads = input.rows.flatMap((row) =>
    row.batch === null || row.driedOnly ? [] : [load(row, row.batch, keyOf(row), linked(keyOf(row)), input)],
  );
  const fresh = loads.filter(({ linkedTo }) => linkedTo === null);
  const again = loads.filter(({ linkedTo }) => linkedTo !== null);
  const ownBatches = new Set([...again.map(({ linkedTo }) => linkedTo), ...(input.ofOtherParts ?? [])]);
  const { matches, vanished } = matchRows(
    fresh,
    knownNow(now).filter(({ id }) => !ownBatches.has(id)),
    input.numbering,
  );
  const made = new Map<RowRead, Batch>();
  const settle = ({ row, key, written, batch: ifNew, linkedTo }: Load, match?: Match) => {
    if (match?.kind === "doubtful") {
      verdicts.set(key, "doubtful");
      mayBe.set(key, match.members);
      return;
    }
    if (match?.kind === "same" && match.batch === null) {
      for (const id of match.members) link(row, input.file, id, "part");
      partly.add(key);
      verdicts.set(key, "same");
      return;
    }
    const id = match?.batch ?? linkedTo ?? ifNew.id;
    const before = now.get(id)?.batch;
    const takenOut = before === undefined && id !== ifNew.id;
    const batch = before === undefined ? ifNew : spoken(before, input.saidBefore.get(key), written);
    const verdict = before === undefined ? "new" : sameContent(before, batch) ? "same" : "changed";
    if (!takenOut && verdict !== "same") revise(batch, input.file, verdict);
    if (!takenOut && verdict === "new") made.set(row, batch);
    link(row, input.file, id, "whole");
    verdicts.set(key, takenOut ? "same" : verdict);
    if (match?.kind === "takes-place") for (const member of match.members) takeOut(member, "weighed-together", id);
  };
  for (const load of again) settle(load);
  for (const [at, load] of fresh.entries()) settle(load, matches[at]);

  const mine = new Map<string, RowRead>();
  const joins = new Map<string, Link["part"]>();
  for (const row of input.rows) {
    if (!row.driedOnly || row.batch === null) continue;
    const key = keyOf(row);
    const done = joinedAsSaid(row.batch, key, now, input);
    if (done === null) {
      mine.set(key, row);
      continue;
    }
    const { batch, members, part, verdict } = done;
    if (batch !== null) revise(batch, input.file, verdict);
    for (const member of members) takeOut(member, "weighed-together", done.id);
    link(row, input.file, done.id, part);
    joins.set(key, part);
    verdicts.set(key, verdict);
  }
  const theirs = new Map(input.waiting.map((row) => [`${row.file} ${keyOf(row)}`, row]));
  const unjoined = new Set([...mine.keys()].flatMap((key) => joinedBefore(key, input) ?? []));
  const dried = [...driedRows(mine), ...driedRows(theirs)];
  const open = dried.length === 0 ? [] : knownNow(now).filter(({ id }) => !unjoined.has(id));
  for (const { key, kind, batch: id } of matchRows(dried, open, input.numbering).matches) {
    const theirRow = theirs.get(key);
    const row = theirRow ?? mine.get(key);
    const before = id === null ? undefined : now.get(id)?.batch;
    if (row === undefined || row.batch === null) continue;
    const finds = before !== undefined && (kind === "joins-dried" || kind === "same");
    if (finds) {
      const file = theirRow?.file ?? input.file;
      const from = revised.get(before.id)?.reason === "new" ? input.file : file;
      if (kind === "joins-dried") revise({ ...before, dried: row.batch.dried, driedToCome: false }, from, "joined");
      link(row, file, before.id, "dried");
    }
    if (theirRow === undefined) verdicts.set(key, !finds ? "no-load" : kind === "same" ? "same" : "joined");
    else if (finds) joined.push(theirRow);
  }
  // Loads weighed together are one batch, and every row of them is one of the rows it was read from.
  for (const row of input.rows) {
    const batch = row.countsWith === undefined ? undefined : batchOf.get(keyOf(row.countsWith));
    if (batch !== undefined) link(row, input.file, batch, "whole");
  }
  for (const id of vanished) if (input.withdraw.has(id)) takeOut(id, "not-sent-again", null);
  for (const row of input.rows) {
    const batch = made.get(row);
    const isAllOfIt = batch !== undefined && revised.get(batch.id)?.batch === batch;
    // of loads that a person joined, the row says all that is said of them together
    const isAllOfThem = joins.size > 0 && joins.get(keyOf(row)) === "whole";
    if (row.batch !== null && !isAllOfIt && !isAllOfThem) sayings.set(keyOf(row), row.batch);
  }
  return { ...plan, vanished };
}

/** A row that tells a load, with the batch that it becomes where none is found for it. */
interface Load extends MatchRow {
  readonly row: RowRead;
  readonly written: BatchWritten;
  readonly batch: Batch;
  /** the batch that the row was read into before */
  readonly linkedTo: string | null;
}

function load(row: RowRead, written: BatchWritten, key: string, linkedTo: string | null, input: BatchInput): Load {
  const { day, method } = written;
  const is = input.are[key];
  const batch = toldFirst(written, {
    id: input.newId(),
    site: input.site,
    inTime: input.inTime(day),
    method: method ?? input.methodOn(day),
  });
  const found = { key, row, written, batch, linkedTo, driedOnly: false };
  return is === undefined ? found : { ...found, is };
}

/** A batch after a row has spoken of it, for the first time or once more. */
function spoken(before: Batch, last: BatchWritten | undefined, written: BatchWritten): Batch {
  return last === undefined ? told(before, written) : toldAnew(before, last, written);
}

export function keyOf(row: { readonly sheet: string; readonly row: number }): string {
  return `${row.sheet}!${row.row}`;
}

function driedRows(rows: ReadonlyMap<string, RowRead | WaitingRow>): MatchRow[] {
  return [...rows].flatMap(([key, { batch }]) => (batch === null ? [] : [{ key, batch, driedOnly: true }]));
}

function knownNow(now: ReadonlyMap<string, { batch: Batch; file: string }>) {
  return [...now.values()].map(({ batch, file }) => ({ id: batch.id, batch, from: file }));
}
