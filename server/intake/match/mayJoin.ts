import type { BatchWritten } from "#server/terms/batch";
import { dayNumber } from "#server/terms/days";
import { isPlausible } from "../faults/loads";
import { numbersOfSet } from "../rows/setsPlain";
import { pansAgree } from "./content";

/** A dried weight comes at the latest so many days after its loads: common practice. */
const DAYS_LATER = 7;
/** More choices than that nobody compares. */
const MOST = 6;
/** So many loads go onto one weighing at the most, a whole day's: common practice. */
const MOST_LOADS = 40;

interface Load {
  readonly id: string;
  readonly batch: BatchWritten;
}

/**
 * The loads, one or several together, that a dried weight on a line of its own may be the weight of: those that its
 * number names, those of its day or of the last day before that has some, and of these each one alone. Only loads that
 * have no dried weight yet, and only where no more would come out than went in.
 */
export function mayJoin({ day, number, pan, dried }: BatchWritten, known: readonly Load[]): Load[][] {
  if (dried === null) return [];
  const waiting = known
    .filter(({ batch }) => batch.fresh !== null && batch.dried === null && isBefore(batch.day, day))
    .filter(({ batch }) => pan === null || pansAgree(batch, { ...batch, pan }));
  const days = [...new Set(waiting.map(({ batch }) => batch.day))].sort().reverse();
  const ofDays = days.map((one) => waiting.filter(({ batch }) => batch.day === one));
  const numbers = numbersOfSet(number) ?? (number === null ? [] : [number]);
  const named = ofDays.map((loads) => loads.filter(({ batch }) => numbers.includes(batch.number ?? "")));
  const sets = [
    ...named.filter((loads) => loads.length >= numbers.length && loads.length > 0),
    ...ofDays.slice(0, 1),
  ].filter((loads) => loads.length <= MOST_LOADS);
  const alone = (ofDays[0] ?? []).map((load) => [load]).filter((loads) => isPlausible(dried.value / freshOf(loads)));
  const keys = new Set<string>();
  return [...sets, ...alone]
    .filter((loads) => {
      const key = loads.map(({ id }) => id).join();
      const isNew = dried.value <= freshOf(loads) && !keys.has(key);
      keys.add(key);
      return isNew;
    })
    .slice(0, MOST);
}

function isBefore(load: string, weighing: string): boolean {
  return load <= weighing && dayNumber(weighing) - dayNumber(load) <= DAYS_LATER;
}

function freshOf(loads: readonly Load[]): number {
  return loads.reduce((kg, { batch }) => kg + (batch.fresh?.value ?? 0), 0);
}
