import type { KnownBatch } from "#db/queries/batches";
import type { WaitingRow } from "#db/queries/rows";
import { type MatchRow, matchRows } from "#server/intake/match/matchRows";
import { sameContent, told, toldAnew } from "#server/intake/match/tell";
import type { Batch, BatchWritten, Method } from "#server/terms/batch";
import type { RowRead } from "#server/terms/row";
import { joinedAsSaid, joinedBefore } from "./joinedAsSaid";

/** What became of a row that speaks of a batch. */
export type Verdict = "new" | "changed" | "same" | "joined" | "doubtful" | "no-load";

export interface Link {
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
    verdicts: new Map<string, Verdict>(),
    mayBe: new Map<string, readonly string[]>(),
    sayings: new Map<string, BatchWritten>(),
    partly: new Set<string>(),
    joined: [] as WaitingRow[],
  };
  const { revised, out, links, verdicts, mayBe, partly, joined } = plan;
  const revise = (batch: Batch, file: string, reason: Verdict) => {
    now.set(batch.id, { batch, file });
    revised.set(batch.id, { batch, file, reason: revised.get(batch.id)?.reason === "new" ? "new" : reason });
  };
  const takeOut = (id: string, why: WhyOut, instead: string | null) => {
    const batch = now.get(id)?.batch;
    if (batch === undefined) return;
    now.delete(id);
    out.set(id, { batch, why, instead });
  };
  const link = (row: { sheet: string; row: number }, file: string, batch: string, part: Link["part"]) =>
    links.push({ file, sheet: row.sheet, row: row.row, batch, part });

  const loads = input.rows.filter((row) => row.batch !== null && !row.driedOnly);
  const linked = (row: RowRead) => {
    const id = input.links.get(keyOf(row));
    return id !== undefined && input.saidBefore.has(keyOf(row)) && (now.has(id) || input.takenOut.has(id)) ? id : null;
  };
  const again = loads.filter((row) => linked(row) !== null);
  const fresh = loads.filter((row) => linked(row) === null);
  const ownBatches = new Set([...again.map(linked), ...(input.ofOtherParts ?? [])]);
  const { matches, vanished } = matchRows(
    fresh.map((row) => matchRow(row, input)),
    knownNow(now).filter(({ id }) => !ownBatches.has(id)),
    input.numbering,
  );
  const found = new Map(matches.map((match) => [match.key, match]));
  const made = new Map<string, Batch>();
  for (const row of [...again, ...fresh]) {
    const match = found.get(keyOf(row));
    if (row.batch === null) continue;
    if (match?.kind === "doubtful") {
      verdicts.set(keyOf(row), "doubtful");
      mayBe.set(keyOf(row), match.members);
      continue;
    }
    if (match?.kind === "same" && match.batch === null) {
      for (const id of match.members) link(row, input.file, id, "part");
      partly.add(keyOf(row));
      verdicts.set(keyOf(row), "same");
      continue;
    }
    const id = match?.batch ?? linked(row) ?? input.newId();
    const before = now.get(id)?.batch;
    const batch = spoken(row.batch, id, before, row, input);
    const stays = batch === null || (before !== undefined && sameContent(before, batch));
    const verdict = stays ? "same" : before === undefined ? "new" : "changed";
    if (batch !== null && !stays) revise(batch, input.file, verdict);
    if (batch !== null && verdict === "new") made.set(keyOf(row), batch);
    link(row, input.file, id, "whole");
    verdicts.set(keyOf(row), verdict);
    if (match?.kind === "takes-place") for (const member of match.members) takeOut(member, "weighed-together", id);
  }

  const weighed = input.rows.flatMap((row) =>
    row.driedOnly && row.batch !== null ? [{ key: keyOf(row), ...row, batch: row.batch }] : [],
  );
  const joins = new Map<string, Link["part"]>();
  for (const { key, ...row } of weighed) {
    const done = joinedAsSaid(row.batch, key, now, input);
    if (done === null) continue;
    const { batch, members, part, verdict } = done;
    if (batch !== null) revise(batch, input.file, verdict);
    for (const member of members) takeOut(member, "weighed-together", done.id);
    link(row, input.file, done.id, part);
    joins.set(key, part);
    verdicts.set(key, verdict);
  }
  const mine = weighed.filter(({ key }) => !joins.has(key));
  const theirs = new Map(input.waiting.map((row) => [`${row.file} ${keyOf(row)}`, row]));
  const unjoined = new Set(mine.flatMap(({ key }) => joinedBefore(key, input) ?? []));
  const open = knownNow(now).filter(({ id }) => !unjoined.has(id));
  const dried = matchRows(driedRows(mine, theirs), open, input.numbering);
  for (const { key, kind, batch: id } of dried.matches) {
    const theirRow = theirs.get(key);
    const row = theirRow ?? mine.find((one) => one.key === key);
    const before = id === null ? undefined : now.get(id)?.batch;
    if (row === undefined) continue;
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
  const whole = new Map(links.filter(({ file }) => file === input.file).map((one) => [keyOf(one), one.batch]));
  for (const row of input.rows) {
    const batch = row.countsWith === undefined ? undefined : whole.get(keyOf(row.countsWith));
    if (batch !== undefined) link(row, input.file, batch, "whole");
  }
  for (const id of vanished) if (input.withdraw.has(id)) takeOut(id, "not-sent-again", null);
  const sayings = new Map(
    input.rows.flatMap((row) => {
      const batch = made.get(keyOf(row));
      const isAllOfIt = batch !== undefined && revised.get(batch.id)?.batch === batch;
      // of loads that a person joined, the row says all that is said of them together
      return row.batch === null || isAllOfIt || joins.get(keyOf(row)) === "whole"
        ? []
        : [[keyOf(row), row.batch] as const];
    }),
  );
  return { ...plan, sayings, vanished };
}

/** A batch after a row has spoken of it; null where it was taken out since and the row says nothing new. */
function spoken(
  written: BatchWritten,
  id: string,
  before: Batch | undefined,
  row: RowRead,
  input: BatchInput,
): Batch | null {
  const last = input.saidBefore.get(keyOf(row));
  if (before !== undefined) return last === undefined ? told(before, written) : toldAnew(before, last, written);
  if (input.takenOut.has(id)) return null;
  return {
    ...written,
    id,
    site: input.site,
    inTime: input.inTime(written.day),
    method: written.method ?? input.methodOn(written.day),
  };
}

export function keyOf(row: { readonly sheet: string; readonly row: number }): string {
  return `${row.sheet}!${row.row}`;
}

function matchRow(row: RowRead, { methodOn, are }: BatchInput): MatchRow {
  if (row.batch === null) throw new Error(`row ${keyOf(row)} is matched without a batch`);
  const method = row.batch.method ?? methodOn(row.batch.day);
  const is = are[keyOf(row)];
  return {
    key: keyOf(row),
    batch: { ...row.batch, method },
    driedOnly: row.driedOnly,
    ...(is === undefined ? {} : { is }),
  };
}

function driedRows(
  mine: readonly { readonly key: string; readonly batch: BatchWritten }[],
  theirs: ReadonlyMap<string, WaitingRow>,
): MatchRow[] {
  return [...mine, ...[...theirs].map(([key, { batch }]) => ({ key, batch }))].map(({ key, batch }) => ({
    key,
    batch,
    driedOnly: true,
  }));
}

function knownNow(now: ReadonlyMap<string, { batch: Batch; file: string }>) {
  return [...now.values()].map(({ batch, file }) => ({ id: batch.id, batch, from: file }));
}
