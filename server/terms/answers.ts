import type { Answers } from "./row";

/**
 * What a person says to a log: answers, and beside them what is to be done with all rows of one doubt, which is turned
 * into an answer for each of them before the log is read for good.
 */
export interface Said extends Answers {
  /** keyed "code sheet!column": the place of a choice ("0"), "as-written", or "aside" */
  readonly alike?: Readonly<Record<string, string>>;
}

/** Answers laid over those given before: of one place the later one stands, lists grow. */
export function laidOver<A extends Said, B extends Said>(before: A | null, later: B | null): A & B;
export function laidOver(before: Said | null, later: Said | null): Said {
  const whole: Record<string, unknown> = { ...before };
  for (const [kind, said] of Object.entries(later ?? {})) {
    if (said === undefined) continue;
    const had = whole[kind];
    if (Array.isArray(said)) whole[kind] = joined(Array.isArray(had) ? had : [], said);
    else if (typeof said === "object") whole[kind] = { ...(typeof had === "object" ? had : {}), ...said };
    else whole[kind] = said;
  }
  return whole;
}

function joined(before: readonly unknown[], later: readonly unknown[]): unknown[] {
  const known = new Set(before.map((one) => JSON.stringify(one)));
  return [...before, ...later.filter((one) => !known.has(JSON.stringify(one)))];
}

/** What of some answers is not among others, or is answered differently there. */
export function answersBeyond(all: Said, others: Said): Said {
  const rest: Record<string, unknown> = {};
  for (const [kind, said] of Object.entries(all)) {
    const other = Object.entries(others).find(([name]) => name === kind)?.[1];
    const left = beyond(said, other);
    if (left !== undefined) rest[kind] = left;
  }
  return rest;
}

function beyond(said: unknown, other: unknown): unknown {
  if (Array.isArray(said)) {
    const known = new Set((Array.isArray(other) ? other : []).map((one) => JSON.stringify(one)));
    const left = said.filter((one) => !known.has(JSON.stringify(one)));
    return left.length === 0 ? undefined : left;
  }
  if (typeof said === "object" && said !== null) {
    const known = new Map(Object.entries(typeof other === "object" && other !== null ? other : {}));
    const left = Object.entries(said).filter(([place, put]) => known.get(place) !== put);
    return left.length === 0 ? undefined : Object.fromEntries(left);
  }
  return said === other ? undefined : said;
}

/** True when nothing was answered. */
export function saysNothing(answers: Said): boolean {
  return Object.values(answers).every(
    (said) => said === undefined || (typeof said === "object" && said !== null && Object.keys(said).length === 0),
  );
}
