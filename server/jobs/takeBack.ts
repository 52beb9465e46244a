import { type BatchRow, batchOf, type Revised, revisionsOf } from "#db/queries/batches";
import { type FuelEntry, type FuelWanted, fuelHistory } from "#db/queries/fuel";
import { rowsLeaningOn, type SayingRow, sayingsOf } from "#db/queries/sayings";
import type { Tx } from "#db/store";
import { retold } from "#server/intake/match/retell";
import type { Batch } from "#server/terms/batch";
import { type Fact, inForce } from "#server/terms/facts";
import { isWhyOut } from "./planBatches";
import { dueDay, siteDay } from "./siteDay";

const EVERYTHING = Number.MAX_SAFE_INTEGER;
const TOOK_BACK = "took-back ";

/** What taking back leaves: of each batch what other logs tell of it, or null where none does. */
export interface TakenBack {
  readonly batches: ReadonlyMap<string, Batch | null>;
  readonly revisions: readonly Revised[];
  readonly days: ReadonlySet<string>;
  readonly fuel: readonly FuelEntry[];
  /** rows of other logs that leaned on a batch which went: they are held once more */
  readonly waiting: Awaited<ReturnType<typeof rowsLeaningOn>>;
}

/**
 * Takes back what a file said of some batches: each is told anew from the rows of all other logs and from what persons
 * decided since, in the order in which they came; where nobody else speaks of it, it is withdrawn.
 */
export async function takeBack(
  tx: Tx,
  site: number,
  file: string,
  ids: readonly string[],
  facts: readonly Fact[],
  wanted: FuelWanted,
): Promise<TakenBack> {
  const batches = new Map<string, Batch | null>();
  const revisions: Revised[] = [];
  const days = new Set<string>();
  const histories = groups(await revisionsOf(tx, ids, EVERYTHING), ({ batch }) => batch);
  const said = groups(await sayingsOf(tx, ids, file), ({ batch }) => batch);
  for (const [id, history] of histories) {
    const last = history.at(-1);
    if (last === undefined) continue;
    const stands = standing(file, history);
    const sayings = (said.get(id) ?? []).filter((one) => stands(one));
    const outs = history.filter((row) => row.withdrawn && isWhyOut(row.reason) && stands(outBy(row)));
    const batch = retold(
      sayings.flatMap((row) => (row.part === "part" ? [] : [saying(row, row.part, history, facts, site)])),
      outs.map(({ ledgerIndex }) => ({ at: ledgerIndex })),
      { id, site, methodOn: (day) => methodOn(facts, site, day) },
    );
    batches.set(id, batch);
    const from = sayings.at(-1)?.file ?? file;
    const about = { file: batch === null ? file : from, withdrawn: batch === null, reason: `${TOOK_BACK}${file}` };
    revisions.push({ batch: batch ?? batchOf(last), ...about });
    days.add(last.day).add((batch ?? last).day);
  }
  const gone = [...batches].flatMap(([id, batch]) => (batch === null ? [id] : []));
  const waiting = gone.length === 0 ? [] : await rowsLeaningOn(tx, gone, file);
  return { batches, revisions, days, fuel: await fuelBefore(tx, site, file, wanted), waiting };
}

/** Whether a saying still stands: its log was not taken back since, is not the one taken back now, or spoke again. */
function standing(file: string, history: readonly BatchRow[]) {
  const takenBack = new Map(
    history.flatMap(({ reason, ledgerIndex }) =>
      reason.startsWith(TOOK_BACK) ? [[reason.slice(TOOK_BACK.length), ledgerIndex] as const] : [],
    ),
  );
  return (said: Pick<SayingRow, "file" | "at" | "withdrawn">) =>
    said.file !== file && !said.withdrawn && said.at > (takenBack.get(said.file) ?? 0);
}

function outBy({ file, ledgerIndex }: BatchRow) {
  return { file: file ?? "", at: ledgerIndex, withdrawn: false };
}

/** What a row said, from itself or else from what the batch was just then. */
function saying(
  row: SayingRow,
  part: "whole" | "dried",
  history: readonly BatchRow[],
  facts: readonly Fact[],
  site: number,
) {
  const then = history.findLast(({ ledgerIndex }) => ledgerIndex <= row.at) ?? history[0];
  if (then === undefined) throw new Error(`a row speaks of batch ${row.batch}, which was never recorded`);
  const batch = batchOf(then);
  const written = row.written ?? batch;
  const known = facts.filter(({ ledgerIndex }) => ledgerIndex < row.at);
  const due = dueDay(written.day, known, site);
  const inTime =
    row.arrivedAt === null || due === null ? batch.inTime : siteDay(new Date(row.arrivedAt), known, site) <= due;
  return { row: `${row.file} ${row.sheet}!${row.row}`, at: row.at, part, written: spoken(written), inTime };
}

/** What a batch says, without what makes it one of ours. */
function spoken(batch: SayingRow["written"] & object) {
  const { id: _id, site: _site, inTime: _inTime, ...written } = { id: "", site: 0, inTime: true, ...batch };
  return written;
}

function methodOn(facts: readonly Fact[], site: number, day: string) {
  const own = facts.filter((fact) => fact.site === site);
  return inForce(own, "method", day)?.method ?? "other";
}

/** Fuel entries that a file wrote last, as far as they are wanted, as they were before it, or withdrawn. */
export async function fuelBefore(tx: Tx, site: number, file: string, wanted: FuelWanted): Promise<FuelEntry[]> {
  const histories = groups(await fuelHistory(tx, site, file, wanted), ({ entry }) => entry.id);
  return [...histories.values()].flatMap((history) => {
    const last = history.at(-1)?.entry;
    if (last === undefined || last.file !== file) return [];
    const before = history.findLast(({ entry, takenBack }) => entry.file !== file && !takenBack)?.entry;
    const entry = before === undefined || before.withdrawn ? { ...last, withdrawn: true } : before;
    return last.withdrawn && entry.withdrawn ? [] : [entry];
  });
}

function groups<T>(all: readonly T[], key: (one: T) => string): Map<string, T[]> {
  const found = new Map<string, T[]>();
  for (const one of all) {
    const group = found.get(key(one));
    if (group === undefined) found.set(key(one), [one]);
    else group.push(one);
  }
  return found;
}
