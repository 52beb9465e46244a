import type { Role } from "#server/terms/person";
import type { Answers } from "#server/terms/row";
import { type Answer, answersListed } from "./tables/answers";

/** One time that a log was counted, as far as answers go. */
export interface Settling {
  readonly ledgerIndex: number;
  readonly answers: Answers | null;
  readonly remembered: { readonly file: string; readonly answers: Answers } | null;
  readonly person: string | null;
  readonly by: Role | null;
  readonly at: string | null;
}

/** An answer with who gave it first, and the log that it was taken over from, if it was. */
export interface SettledAnswer extends Answer {
  readonly ledgerIndex: number;
  readonly person: string | null;
  readonly by: Role | null;
  readonly at: string | null;
  /** an earlier log of the site settled it; nobody was asked again */
  readonly from: string | null;
}

/**
 * The answers that hold, each with the record in which it was first given and has stood since: who counts the log once
 * more with other answers does not become the one who gave these.
 */
export function settledBy(settlings: readonly Settling[]): SettledAnswer[] {
  const last = settlings[settlings.length - 1];
  if (last?.answers == null) return [];
  const listed = settlings.map(({ answers }) => new Set(answersListed(answers ?? {}).map(keyOf)));
  const remembered = new Set(answersListed(last.remembered?.answers ?? {}).map(keyOf));
  return answersListed(last.answers).map((answer) => {
    let at = settlings.length - 1;
    while (at > 0 && listed[at - 1]?.has(keyOf(answer))) at--;
    const first = settlings[at] ?? last;
    const from = remembered.has(keyOf(answer)) ? (last.remembered?.file ?? null) : null;
    return { ...answer, ledgerIndex: first.ledgerIndex, person: first.person, by: first.by, at: first.at, from };
  });
}

function keyOf({ asked, place, put }: Answer): string {
  return JSON.stringify([asked, place, put]);
}
