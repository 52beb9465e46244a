import type { Batch, BatchWritten, Quantity } from "#server/terms/batch";
import { plus, quantity } from "../values/exact";

const WITH = "with ";

/** "with ID ID": what a person says of a dried weight that several loads share, or one load has; null for other answers. */
export function idsJoined(are: string | undefined): readonly string[] | null {
  return are?.startsWith(WITH) === true ? are.slice(WITH.length).split(" ") : null;
}

/** The answer that a dried weight is that of these loads. */
export function joinedWith(ids: readonly string[]): string {
  return WITH + ids.join(" ");
}

/**
 * The one batch that loads become whose dried larvae were weighed together: all their loads, fresh weights and minutes,
 * on the day on which the first was roasted; null where one has a dried weight already or no fresh one.
 */
export function asOneSet(loads: readonly Batch[], { dried }: BatchWritten, id: string): Batch | null {
  const sorted = [...loads].sort(byTime);
  const [first] = sorted;
  const last = sorted[sorted.length - 1];
  const fresh = sumOf(sorted.map((load) => load.fresh));
  if (first === undefined || last === undefined || dried === null || fresh === null) return null;
  if (sorted.some((load) => load.dried !== null)) return null;
  const numbers = sorted.map(({ number }) => number);
  return {
    ...first,
    id,
    number: numbers.every((number) => number !== null) ? numbers.join("+") : null,
    pan: sorted.every(({ pan }) => pan === first.pan) ? first.pan : null,
    grain: first.grain === "load" ? "set" : first.grain,
    loads: sorted.reduce((sum, load) => sum + load.loads, 0),
    fresh,
    dried,
    driedToCome: false,
    minutes: sumOf(sorted.map((load) => load.minutes)),
    endMinute: last.endMinute,
    inTime: sorted.every(({ inTime }) => inTime),
  };
}

function byTime(a: BatchWritten, b: BatchWritten): number {
  return a.day < b.day ? -1 : a.day > b.day ? 1 : (a.startMinute ?? 0) - (b.startMinute ?? 0);
}

function sumOf(parts: readonly (Quantity | null)[]): Quantity | null {
  let exact = "0";
  for (const part of parts) {
    if (part === null) return null;
    exact = plus(exact, part.exact);
  }
  return quantity(exact);
}
