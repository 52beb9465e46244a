import { asPerson } from "#db/asPerson";
import { knownOn, lockSite } from "#db/queries/ledger";
import { recordTimes } from "#db/queries/signals";
import { mayTellAfter, sitesTouchedAfter, watchedUpTo } from "#db/queries/watched";
import type { Store } from "#db/store";
import { monthOf } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";
import { type Corridor, record } from "./record";
import { siteDay } from "./siteDay";
import { planInThread } from "./watchInThread";
import type { WatchOrder, WatchRows } from "./watchOrder";
import { orderOf } from "./watchOrderOf";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** What this process knows of each store, whichever bundle asks. */
interface Known {
  /** up to where there is nothing to record, and the day it was */
  seen: { readonly size: number; readonly today: string } | null;
  running: Promise<void>;
}

const here: typeof globalThis & { evendryWatched?: WeakMap<Store, Known> } = globalThis;

function knownOf(store: Store): Known {
  here.evendryWatched ??= new WeakMap();
  const before = here.evendryWatched.get(store);
  if (before !== undefined) return before;
  const known = { seen: null, running: Promise.resolve() };
  here.evendryWatched.set(store, known);
  return known;
}

/**
 * Brings the recorded signals up to the ledger: one record, and only when something is to be recorded.
 *
 * One at a time for each store; whoever asks while one is under way waits for it and looks again. Acts as the operator,
 * whoever asks, since what is pooled and what limits follow hang on all sites. What is told follows from what the ledger
 * holds, so its record carries the time of the record before it: watching never moves the ledger's clock.
 */
export async function watchNow(store: Store): Promise<void> {
  const known = knownOf(store);
  const now = known.running.catch(() => {}).then(() => bringUp(store, known));
  known.running = now;
  return now;
}

/** Whether something that came may tell of change and is not watched yet; asks for few records, watches nothing. */
export async function isBehind(store: Store): Promise<boolean> {
  const { seen } = knownOf(store);
  return asPerson({ store, person: OPERATOR.id }, async (tx) => {
    const { ledgerSize } = await knownOn(tx, null);
    if (seen !== null && seen.size >= ledgerSize) return false;
    return mayTellAfter(tx, Math.max(await watchedUpTo(tx, ledgerSize), seen?.size ?? 0));
  });
}

async function bringUp(store: Store, known: Known): Promise<void> {
  for (;;) {
    const asked = await toWatch(store, known);
    if (asked === null) return;
    const rows = await planInThread(asked.order);
    if (!(await recorded(asked, rows))) continue;
    known.seen = { size: asked.order.knownSize, today: asked.order.today };
    return;
  }
}

interface Asked {
  readonly order: WatchOrder;
  /** up to where it had been watched before */
  readonly base: number;
  readonly corridor: Corridor;
}

/** What there is to watch; null: nothing has come since. */
async function toWatch(store: Store, known: Known): Promise<Asked | null> {
  const before = known.seen;
  const now = await asPerson({ store, person: OPERATOR.id }, async (tx) => {
    const { ledgerSize, time } = await knownOn(tx, null);
    if (time === null || before?.size === ledgerSize) return null;
    const base = await watchedUpTo(tx, ledgerSize);
    const touched = await sitesTouchedAfter(tx, Math.max(base, before?.size ?? 0));
    const then = (await recordTimes(tx, [base])).get(base);
    return { size: ledgerSize, time: new Date(time), base, touched, then };
  });
  if (now === null) return null;
  const today = siteDay(now.time, [], 0);
  // what was recorded by watching on this day tells all that the day tells
  const day = before?.today ?? (now.then === undefined ? null : siteDay(new Date(now.then), [], 0));
  const corridor = { store, person: OPERATOR.id, clock: () => now.time };
  const earliest = [...now.touched.values()].sort()[0] ?? today;
  const order =
    now.touched.size === 0 && day === today ? null : await orderOf(corridor, now.size, today, monthOf(earliest));
  if (order !== null) return { order, base: now.base, corridor };
  known.seen = { size: now.size, today };
  return null;
}

/** Records what was planned; false when somebody else watched meanwhile, so that it is to be planned again. */
async function recorded({ order, base, corridor }: Asked, rows: WatchRows): Promise<boolean> {
  if (rows.months.length === 0) return true;
  return record<boolean>(corridor, async (tx) => {
    await lockSite(tx, 0);
    if ((await watchedUpTo(tx, EVERYTHING)) !== base) return { nothing: false };
    return {
      command: "watch",
      site: null,
      about: { knownSize: order.knownSize, from: order.from, to: order.to, edition: order.edition },
      changes: {
        watchedMonths: rows.months.map(({ limits, recordChance, recordBefore, ...row }) => ({
          ...row,
          limits: { ...limits, recordChance, ...(recordBefore === null ? {} : { recordBefore }) },
        })),
        watchedStreams: rows.streams,
        signals: rows.signals,
      },
      answer: () => true,
    };
  });
}
