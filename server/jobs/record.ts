import { type Asking, asPerson } from "#db/asPerson";
import { appendLedger, ledgerHead, lockHead } from "#db/queries/ledger";
import { asWritten, type Changes, insertChanges } from "#db/queries/recorded";
import { insertSealed, type SealedRow } from "#db/queries/sealed";
import type { Appended } from "#db/storage";
import type { Tx } from "#db/store";
import { canonical } from "#server/evidence/canonical";
import { Digest } from "#server/evidence/digest";
import { leafHash, withLeaf } from "#server/evidence/merkle";
import { goOn } from "./underWay";

/** Who asks, and what time it is for them. */
export interface Corridor extends Asking {
  readonly clock: () => Date;
}

/** What a command wants recorded, and what it answers. */
export interface Act<T> {
  readonly command: string;
  readonly site: number | null;
  /** what the record itself should say: the file's hash, the publication's month */
  readonly about?: Readonly<Record<string, string | number | null>>;
  readonly changes: Changes;
  readonly sealed?: readonly Omit<SealedRow, "ledgerIndex">[];
  readonly answer: (index: number) => T;
}

/** A command that found nothing to do. */
export interface Nothing<T> {
  readonly nothing: T;
}

/**
 * The one door for writing: one transaction in which a command plans, its changes are added and one record is appended.
 *
 * Locks are taken in the order site, file, batch, days (by the plan), ledger head (here, last of all).
 * Answers only when the record is durable. Stopped while it plans or adds, it throws, and all of it is rolled back.
 */
export async function record<T>(corridor: Corridor, plan: (tx: Tx) => Promise<Act<T> | Nothing<T>>): Promise<T> {
  const [answer, line] = await asPerson(corridor, async (tx) => {
    goOn();
    const act = await plan(tx);
    if ("nothing" in act) return [act.nothing, null] as const;
    const line = await append(tx, corridor.person, corridor.clock(), act);
    return [act.answer(line.index), line] as const;
  });
  if (line !== null) await corridor.store.storage.settle(line);
  return answer;
}

/** Adds the changes and the record, in a transaction that is open. */
export async function append(tx: Tx, person: string, now: Date, act: Omit<Act<unknown>, "answer">): Promise<Appended> {
  await lockHead(tx);
  const head = await ledgerHead(tx);
  const index = head.size + 1;
  const at = head.at !== null && head.at > now.toISOString() ? head.at : now.toISOString();
  const sealed = (act.sealed ?? []).map((row) => ({ ...row, ledgerIndex: index }));
  const ofRows = act.changes.rows?.length ?? 0;
  let rows = 0;
  if (ofRows > 0) goOn({ step: "storing", rows, ofRows });
  const digest = new Digest();
  await insertChanges(tx, act.changes, index, canonical, async (table, said) => {
    await new Promise(setImmediate); // the piece is sent, and the embedded database leaves no turn between its statements
    digest.add(table, said);
    if (table === "rows") rows += said.rows;
    goOn(table === "rows" ? { rows } : {});
  });
  const text = canonical({
    index,
    at,
    person,
    command: act.command,
    site: act.site,
    about: act.about ?? {},
    changes: digest.hex(),
  });
  const leaf = leafHash(text);
  const row = {
    index,
    at,
    person,
    command: act.command,
    site: act.site,
    record: text,
    leaf,
    peaks: withLeaf(head.peaks, head.size, leaf),
  };
  if (sealed.length > 0) await insertSealed(tx, sealed);
  await appendLedger(tx, row);
  return { ...row, changes: () => asWritten(act.changes, index), sealed };
}

/** A time as the database writes it in JSON, so that what is hashed is what is held. */
export function databaseTime(time: Date): string {
  return time.toISOString().replace(/\.?0*Z$/, "+00:00");
}
