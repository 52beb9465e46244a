import type { Role } from "#server/terms/person";
import { counted, dayInWords, listInWords } from "./days";

/** Answers that hold, with who gave each and when. */
export type SettledTimes = readonly {
  readonly by: Role | null;
  readonly at: string | null;
  readonly from: string | null;
}[];

const BY: Record<Role, string> = {
  lead: "the site lead",
  officer: "an officer",
  operator: "the operator",
  auditor: "an auditor",
};

/** "Settled by: the site lead (3 answers, 2 Jun 2031), an officer (1 answer, 4 Jun 2031)."; null where nothing was. */
export function settledInWords(settled: SettledTimes): string | null {
  const groups = new Map<string, { by: string; day: string | null; count: number }>();
  for (const { by, at, from } of settled) {
    const who = from !== null ? "an earlier log of the site" : by === null ? "somebody" : BY[by];
    const day = from !== null || at === null ? null : at.slice(0, 10);
    const key = `${who} ${day}`;
    groups.set(key, { by: who, day, count: (groups.get(key)?.count ?? 0) + 1 });
  }
  if (groups.size === 0) return null;
  const parts = [...groups.values()].map(
    ({ by, day, count }) => `${by} (${counted(count, "answer")}${day === null ? "" : `, ${dayInWords(day)}`})`,
  );
  return `Settled by ${listInWords(parts)}.`;
}
