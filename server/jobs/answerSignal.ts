import { lockHead, lockSite } from "#db/queries/ledger";
import { signalRowsOf } from "#db/queries/signals";
import type { AnswerKind } from "#server/terms/signalTold";
import { type Corridor, record } from "./record";
import { seal } from "./seal";
import { type SignalKey, signalKey, TOGETHER } from "./watchOrder";

/** What a person found out about a signal, and for which other signals of its story it holds too. */
export interface AnswerGiven {
  readonly keys: readonly SignalKey[];
  readonly kind: AnswerKind;
  /** of a real change null: on the day that the signal estimated, or was raised where that was not determined */
  readonly from: string | null;
  readonly to: string | null;
  readonly days: readonly string[];
  readonly reason: string;
}

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/**
 * Records an answer; what it changes about the signals is recorded when they are watched next. Its reason is sealed, and
 * what others see of it is a commitment. Answers the record's index; null where one of the signals was never raised.
 */
export async function answerSignal(
  corridor: Corridor,
  { keys, reason, ...given }: AnswerGiven,
): Promise<number | null> {
  const [first] = keys;
  if (first === undefined) throw new Error("an answer is given to at least one signal");
  return record<number | null>(corridor, async (tx) => {
    await lockSite(tx, first.site);
    const since = new Map<SignalKey, string>();
    for (const key of keys) {
      const rows = await signalRowsOf(tx, { from: key.raisedOn, to: key.raisedOn, site: key.site }, EVERYTHING);
      const told = rows.findLast((row) => signalKey(row) === signalKey(key));
      if (told === undefined) return { nothing: null };
      since.set(key, told.since ?? key.raisedOn);
    }
    await lockHead(tx);
    const site = first.site === TOGETHER ? null : first.site;
    const sealed = seal(reason, site);
    return {
      command: "answer-signal",
      site,
      about: { kind: given.kind, signal: signalKey(first) },
      sealed: [sealed],
      changes: {
        signalAnswers: keys.map((key) => ({
          ...key,
          ...given,
          from: given.kind === "real-change" ? (given.from ?? since.get(key) ?? key.raisedOn) : given.from,
          person: corridor.person,
          reasonSealed: sealed.commitment,
        })),
      },
      answer: (index) => index,
    };
  });
}
