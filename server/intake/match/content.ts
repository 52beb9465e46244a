import type { BatchWritten } from "#server/terms/batch";

/** Everything that a log may say of a batch, in the order in which people look at it. */
export const FIELDS = [
  "day",
  "number",
  "pan",
  "startMinute",
  "endMinute",
  "harvest",
  "method",
  "grain",
  "loads",
  "fresh",
  "dried",
  "driedToCome",
  "minutes",
  "rejects",
  "sandKg",
  "sandCycle",
  "newSand",
  "crushTest",
  "crisp",
  "colour",
  "moistureReading",
  "waterActivity",
] as const satisfies readonly (keyof BatchWritten)[];

/** True when everything that the row says is what the batch already says. */
export function saidAgain(row: BatchWritten, known: BatchWritten): boolean {
  return FIELDS.every((field) => row[field] == null || field === "driedToCome" || isSame(row[field], known[field]));
}

/** True when two say the same of one thing: quantities to the last digit, and nothing is as good as nothing. */
export function isSame(a: Said, b: Said): boolean {
  const [left, right] = [a ?? null, b ?? null];
  if (left === null || right === null || typeof left !== "object" || typeof right !== "object") return left === right;
  return left.exact === right.exact;
}

type Said = BatchWritten[keyof BatchWritten] | undefined;

/** What was weighed, as a key: two rows that share it are alike. */
export function weightsOf({ fresh, dried, loads }: BatchWritten): string {
  return `${fresh?.exact}|${dried?.exact}|${loads}`;
}

/** True when nothing says that these are two loads: number, start and method are equal wherever both sides have one. */
export function namesAgree(a: BatchWritten, b: BatchWritten): boolean {
  return agree(a.number, b.number) && agree(a.startMinute, b.startMinute) && agree(a.method, b.method);
}

/** True when both are of one pan, or one of them does not say. */
export function pansAgree(a: BatchWritten, b: BatchWritten): boolean {
  return agree(a.pan, b.pan);
}

/** True when both were dried the same way, or one of them does not say. */
export function methodsAgree(a: BatchWritten, b: BatchWritten): boolean {
  return agree(a.method, b.method);
}

function agree(a: string | number | null, b: string | number | null): boolean {
  return a === null || b === null || a === b;
}

/** Of what both sides weighed and timed, at least one thing is the same; true as well when less than two can be compared. */
export function someAgree(a: BatchWritten, b: BatchWritten): boolean {
  const pairs = [
    [a.fresh?.exact, b.fresh?.exact],
    [a.dried?.exact, b.dried?.exact],
    [a.minutes?.exact, b.minutes?.exact],
  ].filter(([left, right]) => left != null && right != null);
  return pairs.length < 2 || pairs.some(([left, right]) => left === right);
}
