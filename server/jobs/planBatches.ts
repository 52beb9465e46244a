import type { KnownBatch } from "#db/queries/batches";
import type { WaitingRow } from "#db/queries/rows";
import { type Match, type MatchRow, matchRows } from "#server/intake/match/matchRows";
import { sameContent, told, toldAnew } from "#server/intake/match/tell";
import type { Batch, BatchWritten, Method } from "#server/terms/batch";
import type { RowRead } from "#server/terms/row";
import { joinedAsSaid, joinedBefore } from "./joinedAsSaid";
import { type Load, loadsOf } from "./loads";
import { Standing } from "./standing";

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
  /** the batch of each row of this file */
  readonly batchOf: ReadonlyMap<RowRead, string>;
  readonly verdicts: ReadonlyMap<RowRead, Verdict>;
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
  readonly ofOtherParts?: Pick<ReadonlySet<string>, "has">;
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
  const plan = {
    revised: new Map<string, { batch: Batch; file: string; reason: Verdict }>(),
    out: new Map<string, { batch: Batch; why: WhyOut; instead: string | null }>(),
    links: [] as Link[],
    batchOf: new Map<RowRead, string>(),
    verdicts: new Map<RowRead, Verdict>(),
    mayBe: new Map<string, readonly string[]>(),
    sayings: new Map<string, BatchWritten>(),
    partly: new Set<string>(),
    joined: [] as WaitingRow[],
  };
  const { revised, out, links, batchOf, verdicts, mayBe, sayings, partly, joined } = plan;
  const now = new Standing(input.known, revised);
  /** batches that rows made, and that something else of this log changed at once */
  const madeAnew = new Set<string>();
  const revise = (batch: Batch, file: string, reason: Verdict) => {
    const isMade = revised.get(batch.id)?.reason === "new";
    if (isMade) madeAnew.add(batch.id);
    now.stands(batch.id);
    revised.set(batch.id, { batch, file, reason: isMade ? "new" : reason });
  };
  const takeOut = (id: string, why: WhyOut, instead: string | null) => {
    const batch = now.get(id)?.batch;
    if (batch === undefined) return;
    now.isOut(id);
    out.set(id, { batch, why, instead });
  };
  const link = (row: RowRead, batch: string, part: Link["part"]) => {
    links.push({ site: input.site, file: input.file, sheet: row.sheet, row: row.row, batch, part });
    batchOf.set(row, batch);
  };

  const linked = (key: string) => {
    if (input.links.size === 0) return null;
    const id = input.links.get(key);
    return id !== undefined && input.saidBefore.has(key) && (now.has(id) || input.takenOut.has(id)) ? id : null;
  };
  const loads = loadsOf(input, linked);
  const fresh = loads.filter(({ linkedTo }) => linkedTo === null);
  const again = loads.filter(({ linkedTo }) => linkedTo !== null);
  const ownBatches = new Set(again.map(({ linkedTo }) => linkedTo));
  const { matches, vanished } = matchRows(
    fresh,
    now.all().filter(({ id }) => !ownBatches.has(id) && input.ofOtherParts?.has(id) !== true),
    input.numbering,
  );
  const settle = ({ row, key, written, batch: ifNew, linkedTo }: Load, match?: Match) => {
    if (match?.kind === "doubtful") {
      verdicts.set(row, "doubtful");
      mayBe.set(key, match.members);
      sayings.set(key, written);
      return;
    }
    if (match?.kind === "same" && match.batch === null) {
      for (const id of match.members) link(row, id, "part");
      partly.add(key);
      verdicts.set(row, "same");
      sayings.set(key, written);
      return;
    }
    const id = match?.batch ?? linkedTo ?? ifNew.id;
    const before = now.get(id)?.batch;
    const takenOut = before === undefined && id !== ifNew.id;
    const batch = before === undefined ? ifNew : spoken(before, input.saidBefore.get(key), written);
    const verdict = before === undefined ? "new" : sameContent(before, batch) ? "same" : "changed";
    if (!takenOut && verdict !== "same") revise(batch, input.file, verdict);
    if (takenOut || verdict !== "new") sayings.set(key, written);
    link(row, id, "whole");
    verdicts.set(row, takenOut ? "same" : verdict);
    if (match?.kind === "takes-place") for (const member of match.members) takeOut(member, "weighed-together", id);
  };
  for (const load of again) settle(load);
  for (const [at, load] of fresh.entries()) settle(load, matches[at]);

  const mine = new Map<string, RowRead>();
  for (const row of input.rows) {
    if (!row.driedOnly || row.batch === null) continue;
    const key = keyOf(row);
    const done = joinedAsSaid(row.batch, key, now, input);
    // of loads that a person joined, the row says all that is said of them together
    if (done?.part !== "whole") sayings.set(key, row.batch);
    if (done === null) {
      mine.set(key, row);
      continue;
    }
    const { batch, members, part, verdict } = done;
    if (batch !== null) revise(batch, input.file, verdict);
    for (const member of members) takeOut(member, "weighed-together", done.id);
    link(row, done.id, part);
    verdicts.set(row, verdict);
  }
  const theirs = new Map(input.waiting.map((row) => [`${row.file} ${keyOf(row)}`, row]));
  const unjoined = new Set([...mine.keys()].flatMap((key) => joinedBefore(key, input) ?? []));
  const dried = [...driedRows(mine), ...driedRows(theirs)];
  const open = dried.length === 0 ? [] : now.all().filter(({ id }) => !unjoined.has(id));
  for (const { key, kind, batch: id } of matchRows(dried, open, input.numbering).matches) {
    const theirRow = theirs.get(key);
    const myRow = theirRow === undefined ? mine.get(key) : undefined;
    const row = theirRow ?? myRow;
    const before = id === null ? undefined : now.get(id)?.batch;
    if (row === undefined || row.batch === null) continue;
    const finds = before !== undefined && (kind === "joins-dried" || kind === "same");
    if (finds) {
      const file = theirRow?.file ?? input.file;
      const from = revised.get(before.id)?.reason === "new" ? input.file : file;
      if (kind === "joins-dried") revise({ ...before, dried: row.batch.dried, driedToCome: false }, from, "joined");
      if (myRow !== undefined) link(myRow, before.id, "dried");
      else links.push({ site: input.site, file, sheet: row.sheet, row: row.row, batch: before.id, part: "dried" });
    }
    if (myRow !== undefined) verdicts.set(myRow, !finds ? "no-load" : kind === "same" ? "same" : "joined");
    else if (finds && theirRow !== undefined) joined.push(theirRow);
  }
  // Loads weighed together are one batch, and every row of them is one of the rows it was read from.
  const together = input.rows.filter(({ countsWith }) => countsWith !== undefined);
  const byKey = new Map(together.length === 0 ? [] : [...batchOf].map(([row, batch]) => [keyOf(row), batch]));
  for (const row of together) {
    const batch = row.countsWith === undefined ? undefined : byKey.get(keyOf(row.countsWith));
    if (batch === undefined) continue;
    link(row, batch, "whole");
    byKey.set(keyOf(row), batch);
  }
  for (const id of vanished) if (input.withdraw.has(id)) takeOut(id, "not-sent-again", null);
  for (const { key, batch, written } of madeAnew.size === 0 ? [] : loads)
    if (madeAnew.has(batch.id) && revised.get(batch.id)?.batch !== batch) sayings.set(key, written);
  return { ...plan, vanished };
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
