import { namesAgree, weightsOf } from "./content";
import type { KnownBatch, MatchRow } from "./matchTypes";
import type { Pairing } from "./pairing";

/** So many of equal weights are tried for one row before it is given up as doubtful. */
const TRIES = 64;

/**
 * Aligns what is left of each day and pan: equal weights pair off in order; then a row with a weight that a batch
 * lacked or had otherwise, as long as there is only one way to do it.
 */
export function alignDay(pairing: Pairing): void {
  for (const group of pairing.groups(sameWeights)) {
    const open = [...group.known];
    for (const row of group.rows) takeFirst(pairing, row, open);
  }
  const sentAgain = pairing.daysSentAgain();
  for (const { rows, known } of pairing.groups(({ batch }) => `${batch.day}|${batch.pan}`)) {
    fillIn(pairing, rows, known);
    correct(pairing, rows, known, sentAgain);
  }
}

function sameWeights({ batch }: MatchRow | KnownBatch): string {
  return `${batch.day}|${batch.pan}|${weightsOf(batch)}`;
}

function takeFirst(pairing: Pairing, row: MatchRow, open: KnownBatch[]): void {
  const at = open.slice(0, TRIES).findIndex(({ batch }) => namesAgree(row.batch, batch));
  const batch = open[at];
  if (batch === undefined) return;
  open.splice(at, 1);
  pairing.pair(row, batch);
}

/** A batch that waited for its dried weight takes the row with the same fresh weight; equal ones are interchangeable. */
function fillIn(pairing: Pairing, rows: readonly MatchRow[], known: readonly KnownBatch[]): void {
  const waiting = new Map<string, KnownBatch[]>();
  for (const batch of known) {
    const { fresh, dried, number, startMinute } = batch.batch;
    if (dried !== null || fresh === null || number !== null || startMinute !== null) continue;
    const alike = waiting.get(fresh.exact);
    if (alike === undefined) waiting.set(fresh.exact, [batch]);
    else alike.push(batch);
  }
  for (const row of rows) {
    const { fresh, dried, number, startMinute } = row.batch;
    if (fresh === null || dried === null || number !== null || startMinute !== null) continue;
    const batch = waiting.get(fresh.exact)?.shift();
    if (batch !== undefined) pairing.pair(row, batch);
  }
}

/**
 * On a day that is sent again, one row left beside one batch left is its correction. More of them, or one that equals
 * a batch left in all weights and differs in number or start, cannot be told from another load: doubtful.
 */
function correct(
  pairing: Pairing,
  rows: readonly MatchRow[],
  known: readonly KnownBatch[],
  sentAgain: ReadonlySet<string>,
): void {
  const rowsLeft = rows.filter((row) => pairing.partner(row) === undefined);
  const paired = new Set(rows.map((row) => pairing.partner(row)));
  const knownLeft = known.filter((batch) => !paired.has(batch));
  const [row] = rowsLeft;
  const [batch] = knownLeft;
  if (row === undefined || batch === undefined || !sentAgain.has(row.batch.day)) return;
  if (rowsLeft.length === 1 && knownLeft.length === 1 && namesAgree(row.batch, batch.batch)) {
    if (isNamed(row) === isNamed(batch) && halfAlike(row, batch)) pairing.pair(row, batch);
    else pairing.doubt(row, knownLeft);
    return;
  }
  const alike = new Map(knownLeft.map((one) => [weightsOf(one.batch), one]));
  for (const one of rowsLeft) {
    const twin = alike.get(weightsOf(one.batch));
    const unnamed = !isNamed(one) && knownLeft.some((other) => !isNamed(other) && halfAlike(one, other));
    if (twin !== undefined ? differsInOneName(one, twin) : unnamed) pairing.doubt(one, knownLeft);
  }
}

function isNamed({ batch }: MatchRow | KnownBatch): boolean {
  return batch.number !== null || batch.startMinute !== null;
}

function halfAlike({ batch: a }: MatchRow, { batch: b }: KnownBatch): boolean {
  return a.fresh?.exact === b.fresh?.exact || a.dried?.exact === b.dried?.exact;
}

function differsInOneName({ batch: a }: MatchRow, { batch: b }: KnownBatch): boolean {
  return (a.number === b.number) !== (a.startMinute === b.startMinute);
}
