import { asPerson } from "#db/asPerson";
import { knownOn, lockSite } from "#db/queries/ledger";
import { sitesTouchedAfter, watchedUpTo } from "#db/queries/watched";
import type { Store } from "#db/store";
import { monthOf } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";
import { type Corridor, record } from "./record";
import { siteDay } from "./siteDay";
import { planInThread } from "./watchInThread";
import type { WatchOrder, WatchRows } from "./watchOrder";
import { orderOf } from "./watchOrderOf";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** Up to where this process knows that there is nothing to record. */
const seen = new WeakMap<Store, { readonly size: number; readonly today: string }>();
const running = new WeakMap<Store, Promise<void>>();

/**
 * Brings the recorded signals up to the ledger: one record, and only when something is to be recorded.
 *
 * One at a time for each store; whoever asks while one is under way waits for it and looks again. Acts as the operator,
 * whoever asks, since what is pooled and what limits follow hang on all sites.
 */
export async function watchNow(corridor: Pick<Corridor, "store" | "clock">): Promise<void> {
  const { store } = corridor;
  const before = running.get(store) ?? Promise.resolve();
  const now = before.catch(() => {}).then(() => bringUp({ ...corridor, person: OPERATOR.id }));
  running.set(store, now);
  return now;
}

async function bringUp(corridor: Corridor): Promise<void> {
  const { store } = corridor;
  for (;;) {
    const asked = await toWatch(corridor);
    if (asked === null) return;
    const rows = await planInThread(asked.order);
    const done = await recorded(corridor, asked, rows);
    if (!done) continue;
    seen.set(store, { size: asked.order.knownSize, today: asked.order.today });
    return;
  }
}

interface Asked {
  readonly order: WatchOrder;
  /** up to where it had been watched before */
  readonly base: number;
}

/** What there is to watch; null: nothing has come since. */
async function toWatch(corridor: Corridor): Promise<Asked | null> {
  const { store } = corridor;
  const before = seen.get(store);
  const now = await asPerson(corridor, async (tx) => {
    const { ledgerSize, time } = await knownOn(tx, null);
    const today = siteDay(new Date(time ?? 0), [], 0);
    if (before?.size === ledgerSize) return null;
    const base = await watchedUpTo(tx, ledgerSize);
    const touched = await sitesTouchedAfter(tx, Math.max(base, before?.size ?? 0));
    return { size: ledgerSize, today, base, touched };
  });
  if (now === null) return null;
  if (now.touched.size === 0 && before?.today === now.today) {
    seen.set(store, { size: now.size, today: now.today });
    return null;
  }
  const earliest = [...now.touched.values()].sort()[0] ?? now.today;
  const order = await orderOf(corridor, now.size, now.today, monthOf(earliest));
  if (order !== null) return { order, base: now.base };
  seen.set(store, { size: now.size, today: now.today });
  return null;
}

/** Records what was planned; false when somebody else watched meanwhile, so that it is to be planned again. */
async function recorded(corridor: Corridor, { order, base }: Asked, rows: WatchRows): Promise<boolean> {
  if (rows.months.length === 0) return true;
  return record<boolean>(corridor, async (tx) => {
    await lockSite(tx, 0);
    if ((await watchedUpTo(tx, EVERYTHING)) !== base) return { nothing: false };
    return {
      command: "watch",
      site: null,
      about: { knownSize: order.knownSize, from: order.from, to: order.to, edition: order.edition },
      changes: {
        watchedMonths: rows.months.map(({ limits, recordChance, ...row }) => ({
          ...row,
          limits: { ...limits, recordChance },
        })),
        watchedStreams: rows.streams,
        signals: rows.signals,
      },
      answer: () => true,
    };
  });
}
