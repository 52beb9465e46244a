import type { BatchWritten } from "#server/terms/batch";

/** True when everything that the row says is what the batch already says. */
export function saidAgain(row: BatchWritten, known: BatchWritten): boolean {
  const before = new Map(Object.entries(known));
  return Object.entries(row).every(([name, said]) => {
    if (said === null || name === "driedToCome") return true;
    return JSON.stringify(said) === JSON.stringify(before.get(name) ?? null);
  });
}

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
