import { alignDay } from "./alignDay";
import { namesAgree, saidAgain, someAgree } from "./content";
import { matchDried } from "./matchDried";
import type { KnownBatch, Match, MatchRow, Numbering } from "./matchTypes";
import { Pairing } from "./pairing";

export type { KnownBatch, Match, MatchRow, Numbering } from "./matchTypes";

/**
 * Finds the batch of each row among the batches known of its site.
 *
 * First by declared number, then by day, pan and start, then a day's tally by its day and pan, then by aligning the
 * rest of the day. Equal rows of one file stay apart; what fits more than one batch is doubtful. `vanished` are the
 * batches of the file's days that did not come again; nothing is taken back here.
 *
 * Rows that bring only a dried weight look among the known batches, so match the loads of a file first.
 */
export function matchRows(
  rows: readonly MatchRow[],
  known: readonly KnownBatch[],
  numbering: Numbering,
): { matches: readonly Match[]; vanished: readonly string[] } {
  const loads = rows.filter((row) => !row.driedOnly);
  const pairing = new Pairing(loads, known);
  byNumber(pairing, numbering);
  byNumberWithoutPan(pairing);
  bySingleKey(pairing, ({ batch }) =>
    batch.startMinute === null ? null : `${batch.day}|${batch.pan}|${batch.startMinute}`,
  );
  bySingleKey(pairing, ({ batch }) =>
    isTally(batch.grain) ? `${batch.day}|${batch.pan}|${batch.method}|${batch.grain}` : null,
  );
  bySingleKey(pairing, ({ batch }) => (isTally(batch.grain) ? `${batch.day}|${batch.pan}|${batch.grain}` : null));
  alignDay(pairing);

  const found = new Map(loads.map((row) => [row.key, verdict(row, pairing)]));
  for (const match of matchDried(
    rows.filter((row) => row.driedOnly),
    known,
    numbering,
  ))
    found.set(match.key, match);
  const days = new Set(loads.map(({ batch }) => batch.day));
  const vanished = pairing.knownLeft().filter(({ batch }) => days.has(batch.day));
  return {
    matches: rows.flatMap(({ key }) => found.get(key) ?? []),
    vanished: vanished.map(({ id }) => id),
  };
}

function verdict(row: MatchRow, pairing: Pairing): Match {
  const known = pairing.partner(row);
  if (pairing.isDoubtful(row)) return { key: row.key, kind: "doubtful", batch: null };
  if (known === undefined) return { key: row.key, kind: "new", batch: null };
  return { key: row.key, kind: saidAgain(row.batch, known.batch) ? "same" : "changed", batch: known.id };
}

/**
 * A number that comes twice in one file, or whose batch agrees with the row in nothing else, is doubtful. In numbering
 * by day the pan belongs to the key, so that two pans may count from one each.
 */
function byNumber(pairing: Pairing, numbering: Numbering): void {
  const keyOf = ({ batch }: MatchRow | KnownBatch) =>
    batch.number === null ? null : numbering === "site" ? batch.number : `${batch.day}|${batch.pan}|${batch.number}`;
  for (const { rows, known } of pairing.groups(keyOf)) {
    const [row, another] = rows;
    const [batch, second] = known;
    if (row === undefined) continue;
    if (another !== undefined || second !== undefined) for (const one of rows) pairing.doubt(one);
    else if (batch !== undefined) pairOrDoubt(pairing, row, batch);
  }
}

/** Found under one name: surely the same load when number and start agree or any weight does, else doubtful. */
function pairOrDoubt(pairing: Pairing, row: MatchRow, batch: KnownBatch): void {
  const { number, startMinute } = row.batch;
  const bothNames =
    number !== null && startMinute !== null && number === batch.batch.number && startMinute === batch.batch.startMinute;
  if (bothNames || someAgree(row.batch, batch.batch)) pairing.pair(row, batch);
  else pairing.doubt(row);
}

/** A number of a day whose pan was left out on one of both sides. */
function byNumberWithoutPan(pairing: Pairing): void {
  const keyOf = ({ batch }: MatchRow | KnownBatch) => (batch.number === null ? null : `${batch.day}|${batch.number}`);
  for (const { rows, known } of pairing.groups(keyOf)) {
    const [row, another] = rows;
    const [batch, second] = known;
    if (row === undefined || batch === undefined || another !== undefined || second !== undefined) continue;
    if ((row.batch.pan === null) !== (batch.batch.pan === null)) pairOrDoubt(pairing, row, batch);
  }
}

/** Pairs rows and batches that are alone with their key, unless their numbers say that they are two. */
function bySingleKey(pairing: Pairing, keyOf: (one: MatchRow | KnownBatch) => string | null): void {
  for (const { rows, known } of pairing.groups(keyOf)) {
    const [row, another] = rows;
    const [batch, second] = known;
    if (row === undefined || batch === undefined || another !== undefined || second !== undefined) continue;
    if (row.batch.number !== null && batch.batch.number !== null) continue;
    if (!namesAgree(row.batch, batch.batch)) continue;
    if (isTally(row.batch.grain)) pairing.pair(row, batch);
    else pairOrDoubt(pairing, row, batch);
  }
}

function isTally(grain: MatchRow["batch"]["grain"]): boolean {
  return grain === "site-day" || grain === "pan-day";
}
