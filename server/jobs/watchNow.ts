import { asPerson } from "#db/asPerson";
import { knownOn, lockSite } from "#db/queries/ledger";
import { sitesTouchedAfter, watchedUpTo } from "#db/queries/watched";
import type { Store, Tx } from "#db/store";
import { dayOf, daysOfMonth, monthOf, monthsBetween, plusMonths } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import { EDITION } from "#server/terms/figure";
import { OPERATOR } from "#server/terms/person";
import { type Corridor, record } from "./record";
import { siteDay } from "./siteDay";
import { planInThread } from "./watchInThread";
import type { WatchOrder, WatchRows } from "./watchOrder";
import { answerRow, monthRows, signalRows, standingAnswers, streamRows } from "./watchRead";
import { type SitesWatched, sitesWatched } from "./watchSites";

const BEGINNING = "0001-01-01";
const END = "9999-12-31";
/** A month's record is judged up to so many months after it. */
const JUDGED_MONTHS = 2;

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

/** The order to watch the months from one on, as known at a size of the ledger; null while there is nothing to watch. */
export async function orderOf(
  corridor: Corridor,
  size: number,
  today: string,
  earliest: string,
): Promise<WatchOrder | null> {
  const thisMonth = monthOf(today);
  const watched = await sitesWatched(corridor.store, thisMonth, size);
  const span = monthsWith(watched, thisMonth);
  if (span === null) return null;
  const from =
    [span.from, [earliest, plusMonths(thisMonth, -JUDGED_MONTHS)].sort()[0] ?? earliest].sort()[1] ?? earliest;
  const start = from > span.to ? span.to : from;
  return asPerson(corridor, async (tx) => ({
    edition: EDITION,
    knownSize: size,
    today,
    sites: watched.sites,
    from: start,
    to: span.to,
    accepted: acceptedBy(watched.programme, start, span.to),
    answers: (await standingAnswers(tx, null, size)).map(answerRow),
    ...(await toldBefore(tx, start, span.to)),
  }));
}

const EVERYTHING = Number.MAX_SAFE_INTEGER;

async function toldBefore(tx: Tx, from: string, to: string) {
  return {
    signals: await signalRows(tx, BEGINNING, END, null, EVERYTHING),
    months: await monthRows(tx, from, to, EVERYTHING),
    streams: await streamRows(tx, from, to, EVERYTHING),
  };
}

/** The first and last month with anything to watch, as far as the ledger's clock has come. */
function monthsWith({ sites }: SitesWatched, thisMonth: string): { readonly from: string; readonly to: string } | null {
  const months = sites.flatMap(({ streams, record }) => [
    ...streams.flatMap(({ series: { day } }) => [day[0], day.at(-1)].map((one) => monthOf(dayOf(one ?? 0)))),
    ...record.map(({ month }) => month),
  ]);
  const known = months.filter((month) => month <= thisMonth).sort();
  const [from, to] = [known[0], known.at(-1)];
  return from === undefined || to === undefined ? null : { from, to };
}

function acceptedBy(programme: readonly Fact[], from: string, to: string): WatchOrder["accepted"] {
  return Object.fromEntries(
    monthsBetween(from, to).flatMap((month) => {
      const said = inForce(programme, "false-alarms", daysOfMonth(month).to);
      return said === null ? [] : [[month, said] as const];
    }),
  );
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
