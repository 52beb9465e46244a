import { alignDay } from "./alignDay";
import { namesAgree, saidAgain, someAgree } from "./content";
import { matchDried } from "./matchDried";
import type { KnownBatch, Match, MatchRow, Numbering } from "./matchTypes";
import { Pairing } from "./pairing";
import { inPlaceOfLoads, setsAndTheirLoads, talliesAndTheirLoads } from "./sets";

export type { KnownBatch, Match, MatchRow, Numbering } from "./matchTypes";

/** So many batches that a doubtful row may be are named: more than a person compares. */
const NAMED = 12;

const NONE: readonly string[] = [];

/**
 * Finds the batch of each row among the batches known of its site.
 *
 * First as a person said, then by declared number, by day, pan and start, a day's tally by its day and pan, sets and
 * their loads, then by aligning the rest of the day. Equal rows of one file stay apart; what fits more than one batch is
 * doubtful. `vanished` are batches that did not come again: of the file's own days, and of the days between these as
 * far as a log brought them of which something did come again. Nothing is taken back here.
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
  asSaid(pairing, numbering);
  byNumber(pairing, numbering);
  byNumberWithoutPan(pairing);
  bySingleKey(pairing, ({ batch }) =>
    // a set may begin with its first load, and is not that load
    batch.startMinute === null ? null : `${batch.day}|${batch.pan}|${batch.startMinute}|${batch.grain === "set"}`,
  );
  bySingleKey(pairing, ({ batch }) =>
    isTally(batch.grain) ? `${batch.day}|${batch.pan}|${batch.method}|${batch.grain}` : null,
  );
  bySingleKey(pairing, ({ batch }) => (isTally(batch.grain) ? `${batch.day}|${batch.pan}|${batch.grain}` : null));
  setsAndTheirLoads(pairing, numbering);
  alignDay(pairing);
  talliesAndTheirLoads(pairing);

  const dried = rows.filter((row) => row.driedOnly);
  const ofDried = new Map(matchDried(dried, known, numbering).map((match) => [match.key, match]));
  const match = (row: MatchRow) => (row.driedOnly ? ofDried.get(row.key) : undefined) ?? verdict(row, pairing);
  return {
    matches: rows.map(match),
    vanished: vanishedFrom(loads, pairing).map(({ id }) => id),
  };
}

/** What persons said of rows that were doubtful; a batch that is here no more is asked for again. */
function asSaid(pairing: Pairing, numbering: Numbering): void {
  for (const row of pairing.rowsLeft()) {
    if (row.is === undefined) continue;
    const said = pairing.knownLeft().find(({ id }) => id === row.is);
    if (row.is === "new") pairing.setApart(row);
    else if (row.is === "instead") inPlaceOfLoads(pairing, row, numbering);
    else if (said === undefined) pairing.doubt(row);
    else pairing.pair(row, said);
  }
}

function vanishedFrom(loads: readonly MatchRow[], pairing: Pairing): KnownBatch[] {
  const days = new Set(loads.map(({ batch }) => batch.day));
  const first = [...days].reduce((least, day) => (day < least ? day : least), "9999-12-31");
  const last = [...days].reduce((most, day) => (day > most ? day : most), "");
  const sentAgain = new Set(pairing.knownFound().map(({ from }) => from));
  return pairing
    .knownLeft()
    .filter(({ batch: { day }, from }) => days.has(day) || (first < day && day < last && sentAgain.has(from)));
}

function verdict(row: MatchRow, pairing: Pairing): Match {
  const { key } = row;
  const doubt = pairing.doubtAmong(row);
  if (doubt !== undefined) return { key, kind: "doubtful", batch: null, members: mayBe(row, doubt, pairing) };
  const sum = pairing.sum(row);
  if (sum !== undefined) return { key, kind: sum.kind, batch: null, members: sum.of.map(({ id }) => id) };
  const whole = pairing.whole(row);
  if (whole !== undefined) return { key, kind: "same", batch: null, members: [whole.id] };
  const known = pairing.partner(row);
  if (known === undefined) return { key, kind: "new", batch: null, members: NONE };
  return { key, kind: saidAgain(row.batch, known.batch) ? "same" : "changed", batch: known.id, members: [] };
}

/** The batches that a doubtful row may be: those it was found beside, then what is left of its day. */
function mayBe(row: MatchRow, among: readonly KnownBatch[], pairing: Pairing): string[] {
  const ofDay = pairing.knownLeft().filter(({ batch }) => batch.day === row.batch.day);
  return [...new Set([...among, ...ofDay].map(({ id }) => id))].slice(0, NAMED);
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
    if (row === undefined || batch === undefined) continue;
    if (another !== undefined || second !== undefined) for (const one of rows) pairing.doubt(one, known);
    else pairOrDoubt(pairing, row, batch);
  }
  for (const row of pairing.repeated(keyOf)) pairing.doubt(row);
}

/** Found under one name: surely the same load when number and start agree or any weight does, else doubtful. */
function pairOrDoubt(pairing: Pairing, row: MatchRow, batch: KnownBatch): void {
  const { number, startMinute } = row.batch;
  const bothNames =
    number !== null && startMinute !== null && number === batch.batch.number && startMinute === batch.batch.startMinute;
  if (bothNames || someAgree(row.batch, batch.batch)) pairing.pair(row, batch);
  else pairing.doubt(row, [batch]);
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
