import type { BatchWritten, Quantity } from "#server/terms/batch";
import { numbersOfSet } from "../rows/setsPlain";
import { methodsAgree, pansAgree } from "./content";
import type { KnownBatch, MatchRow, Numbering } from "./matchTypes";
import type { Pairing } from "./pairing";

/** Weights that add up to the same but for the rounding of doubles. */
const ROUNDING_KG = 1e-6;

type Told = Pick<MatchRow, "batch">;

/**
 * Sets weighed together whose loads came one by one before, and loads of a set that came before.
 *
 * Where all of them are there and their fresh weights add up, the set takes the place of its loads, and loads of a set are
 * what it already says. Where some are missing or the weights differ, counting both would count larvae twice: doubtful.
 */
export function setsAndTheirLoads(pairing: Pairing, numbering: Numbering): void {
  const sets = pairing.rowsLeft().filter(({ batch }) => batch.grain === "set" && batch.fresh !== null);
  for (const row of sets) {
    const { members, all } = loadsOfSet(row, pairing, numbering);
    if (members.length === 0) continue;
    if (all && addUp(row, members) && driedAgrees(row, members)) pairing.sumUp(row, "takes-place", members);
    else pairing.doubt(row, members);
  }
  for (const set of pairing.knownLeft().filter(({ batch }) => batch.grain === "set")) {
    const numbers = numbersOfSet(set.batch.number);
    if (numbers === null) continue;
    const rows = pairing
      .rowsLeft()
      .filter((row) => row.batch.grain === "load" && isMember(row.batch, set.batch, numbers, numbering));
    asPartsOf(pairing, set, rows, numbers.length);
  }
}

/** What a person said: the row stands in the place of its loads, as far as they are here. */
export function inPlaceOfLoads(pairing: Pairing, row: MatchRow, numbering: Numbering): void {
  const members = isTally(row) ? looseOn(row, pairing) : loadsOfSet(row, pairing, numbering).members;
  if (members.length === 0) pairing.setApart(row);
  else pairing.sumUp(row, "takes-place", members);
}

/**
 * A tally of a day whose loads came one by one, and loads of a day whose tally came: what adds up says the same again;
 * what does not is doubtful. Asked last, for what has found no batch of its own.
 */
export function talliesAndTheirLoads(pairing: Pairing): void {
  for (const row of pairing.rowsLeft().filter(isTally)) {
    const loads = looseOn(row, pairing);
    if (loads.length === 0) continue;
    if (addUp(row, loads) && driedAgrees(row, loads)) pairing.sumUp(row, "same", loads);
    else pairing.doubt(row, loads);
  }
  for (const tally of pairing.knownLeft().filter(isTally)) {
    const rows = pairing.rowsLeft().filter((row) => !isTally(row) && isOfDay(row.batch, tally.batch));
    asPartsOf(pairing, tally, rows, tally.batch.loads);
  }
}

function asPartsOf(pairing: Pairing, whole: KnownBatch, rows: readonly MatchRow[], loads: number): void {
  const here = rows.reduce((sum, { batch }) => sum + batch.loads, 0);
  const agree = here === loads && addUp(whole, rows) && driedAgrees(whole, rows);
  for (const row of rows) {
    if (agree) pairing.partOf(row, whole);
    else pairing.doubt(row, [whole]);
  }
}

/** The loads here that a set may be made of, and whether these are all of them. */
function loadsOfSet(set: MatchRow, pairing: Pairing, numbering: Numbering) {
  const loads = pairing.knownLeft().filter(({ batch }) => batch.grain === "load");
  const numbers = numbersOfSet(set.batch.number);
  if (numbers !== null) {
    const members = loads.filter(({ batch }) => isMember(batch, set.batch, numbers, numbering));
    return {
      members,
      all:
        new Set(members.map(({ batch }) => batch.number)).size === numbers.length && members.length === numbers.length,
    };
  }
  const during = loads.filter(({ batch }) => isOfDay(batch, set.batch) && isDuring(batch, set.batch));
  const begins = during.some(({ batch }) => batch.startMinute !== null && batch.startMinute === set.batch.startMinute);
  const enough = begins || during.length >= set.batch.loads;
  return { members: enough ? during : [], all: during.length === set.batch.loads };
}

function isMember(load: BatchWritten, set: BatchWritten, numbers: readonly string[], numbering: Numbering): boolean {
  if (load.number === null || !numbers.includes(load.number) || !pansAgree(load, set)) return false;
  return numbering === "site" || load.day === set.day;
}

function isOfDay(load: BatchWritten, whole: BatchWritten): boolean {
  return load.day === whole.day && pansAgree(load, whole) && methodsAgree(load, whole);
}

function isDuring({ startMinute: start }: BatchWritten, { startMinute: from, endMinute: to }: BatchWritten): boolean {
  return start === null || from === null || (start >= from && (to === null || start <= to));
}

function looseOn(row: MatchRow, pairing: Pairing): KnownBatch[] {
  return pairing.knownLeft().filter((known) => !isTally(known) && isOfDay(known.batch, row.batch));
}

function isTally({ batch: { grain } }: Told): boolean {
  return grain === "site-day" || grain === "pan-day";
}

/** The parts have all loads and all of the fresh weight of the whole. */
function addUp({ batch: whole }: Told, parts: readonly Told[]): boolean {
  const loads = parts.reduce((sum, { batch }) => sum + batch.loads, 0);
  return (
    loads === whole.loads &&
    isSum(
      whole.fresh,
      parts.map(({ batch }) => batch.fresh),
    )
  );
}

/** Nothing is said twice about the dried weight: the parts have none, the whole has none, or they add up. */
function driedAgrees({ batch: whole }: Told, parts: readonly Told[]): boolean {
  const dried = parts.map(({ batch }) => batch.dried);
  return whole.dried === null || dried.every((one) => one === null) || isSum(whole.dried, dried);
}

function isSum(whole: Quantity | null, parts: readonly (Quantity | null)[]): boolean {
  if (whole === null || parts.some((part) => part === null)) return false;
  const sum = parts.reduce((kg, part) => kg + (part?.value ?? 0), 0);
  return Math.abs(sum - whole.value) < ROUNDING_KG;
}
