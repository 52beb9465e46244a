import { everybody } from "#db/queries/people";
import { unseal } from "#db/queries/sealed";
import { type AnswerStored, answersOf, recordTimes } from "#db/queries/signals";
import { allSites, factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { firstQuestions } from "#server/drift/firstQuestions";
import type { Fact } from "#server/terms/facts";
import { inForce } from "#server/terms/facts";
import type { Person } from "#server/terms/person";
import type { SignalAnswer, SignalCost, SignalTold } from "#server/terms/signalTold";
import { coincidencesOf, noticedAmong } from "./coincidences";
import { type SiteLog, siteLogs } from "./siteLogs";
import { type SignalKey, type SignalRow, signalKey, TOGETHER } from "./watchOrder";

/** What telling signals hangs on besides the signals. */
export interface Telling {
  readonly codes: ReadonlyMap<number, string>;
  readonly names: ReadonlyMap<number, string>;
  readonly facts: readonly Fact[];
  readonly logs: readonly SiteLog[];
  /** all answers of a signal, oldest first, by its key */
  readonly answers: ReadonlyMap<string, readonly SignalAnswer[]>;
}

/** A signal's name in addresses. Codes of sites hold no underscore, so it stands for what sites did together. */
export function signalId(key: SignalKey, codes: ReadonlyMap<number, string>): string {
  const site = key.site === TOGETHER ? "_" : (codes.get(key.site) ?? "?");
  return [site, key.method, key.measure, key.raisedOn, key.direction].join(".");
}

/** Fetches what is needed to tell some signals: of their sites alone. */
export async function telling(tx: Tx, rows: readonly SignalRow[], size: number): Promise<Telling> {
  const shown = [...new Set(rows.map(({ site }) => site))].filter((site) => site !== TOGETHER);
  const sites = await allSites(tx);
  const facts = await factsOf(tx, shown, size);
  return {
    codes: new Map(sites.map(({ id, code }) => [id, code])),
    names: namesOf(facts, sites),
    facts,
    logs: await siteLogs(tx, rows, size),
    answers: await answersTold(tx, shown.length === 1 ? (shown[0] ?? null) : null, size),
  };
}

/** Tells signals to a person: what sites did together only to those who see the whole programme. */
export function tell(
  rows: readonly SignalRow[],
  { codes, facts, logs, answers }: Telling,
  person: Person,
): SignalTold[] {
  return rows.flatMap((row) => {
    const code = row.site === TOGETHER ? null : codes.get(row.site);
    if (code === undefined || (code === null && person.site !== null)) return [];
    const { costDriedKg, month: _month, site: _site, ...signal } = row;
    const coincides = coincidencesOf(
      row,
      facts.filter(({ site }) => site === row.site),
      logs.filter(({ site }) => site === row.site),
    );
    return [
      {
        ...signal,
        id: signalId(row, codes),
        site: code,
        answer: answers.get(signalKey(row))?.at(-1) ?? null,
        cost: { per30Days: row.per30Days, unit: UNITS[row.measure], driedKg: costDriedKg },
        coincides,
        questions: firstQuestions(row.measure, row, noticedAmong(coincides)),
      },
    ];
  });
}

const UNITS: Record<SignalRow["measure"], SignalCost["unit"]> = {
  "dry-yield": "kg-dried",
  throughput: "kg-fresh",
  "fuel-intensity": "mj",
  "minutes-per-kg": "minutes",
  completeness: "batches",
};

export function namesOf(
  facts: readonly Fact[],
  sites: readonly { readonly id: number; readonly code: string }[],
): Map<number, string> {
  return new Map(
    sites.map(({ id, code }) => {
      const own = facts.filter(({ site, kind }) => site === id && kind === "name");
      return [id, inForce(own, "name", "9999-12-31")?.name ?? code];
    }),
  );
}

async function answersTold(tx: Tx, site: number | null, size: number): Promise<Map<string, SignalAnswer[]>> {
  const stored = await answersOf(tx, site, size);
  if (stored.length === 0) return new Map();
  const people = await everybody(tx);
  const sealedNames = new Map(people.map(({ id, nameSealed, role }) => [id, { nameSealed, role }]));
  const open = await unseal(tx, [
    ...stored.map(({ reasonSealed }) => reasonSealed),
    ...people.flatMap(({ nameSealed }) => nameSealed ?? []),
  ]);
  const times = await recordTimes(
    tx,
    stored.map(({ ledgerIndex }) => ledgerIndex),
  );
  const whoIs = (person: string) => {
    const known = sealedNames.get(person);
    return known === undefined
      ? { by: null, role: null }
      : { by: open.get(known.nameSealed ?? "") ?? known.role, role: known.role };
  };
  const told = new Map<string, SignalAnswer[]>();
  for (const one of stored) {
    const answer = answerTold(one, open.get(one.reasonSealed) ?? null, whoIs(one.person), times.get(one.ledgerIndex));
    told.set(signalKey(one), [...(told.get(signalKey(one)) ?? []), answer]);
  }
  return told;
}

function answerTold(
  { kind, from, to, days, ledgerIndex }: AnswerStored,
  reason: string | null,
  who: Pick<SignalAnswer, "by" | "role">,
  at: string | undefined,
): SignalAnswer {
  return { kind, from, to, days, reason, ...who, at: at ?? null, ledgerIndex };
}
