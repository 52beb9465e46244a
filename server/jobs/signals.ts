import { asPerson } from "#db/asPerson";
import { daySumsWithin, fuelSpansTouching } from "#db/queries/compare";
import { allSites, factsOf } from "#db/queries/sites";
import type { Store } from "#db/store";
import { placeOf, type Series } from "#server/drift/series";
import { type WatchedMonth, watchMonth } from "#server/drift/watchMonth";
import { dayNumber, dayOf, daysOfMonth, monthOf, monthsBetween, plusMonths } from "#server/terms/days";
import { inForce } from "#server/terms/facts";
import { OPERATOR } from "#server/terms/person";
import type { Signal } from "#server/terms/signal";
import { STREAM_SUMS, streamsOf } from "./streams";
import { isPartOf, togetherIn } from "./together";

/** A signal as it stands at the end of some month. */
export interface SignalState extends Signal {
  /** stands; or the level went back, a later one goes the other way, or a declared change or time ended it */
  readonly state: "stands" | "back" | "turned" | "ended";
  /** part of what the sites of its method did together, such as a season; always false of that itself */
  readonly together: boolean;
}

/** The signals raised in some months, with what they were held to. */
export interface SignalsOf {
  readonly signals: readonly SignalState[];
  readonly months: readonly {
    readonly month: string;
    /** streams with a point in the month, false alarms accepted, and how many its points would bring by chance */
    readonly streams: number;
    readonly accepted: number;
    readonly expectedFalse: number;
  }[];
}

const BEGINNING = "0001-01-01";
/** A signal that nobody acknowledged stands for so many months after it was last said: by then its chart has learnt the new level. */
const STANDS_MONTHS = 3;
/** The level of today is that of so many last days. */
const LAST_DAYS = 10;
const FEWEST_LAST_DAYS = 5;

/**
 * Signals raised from `from` to `to` (months, both in), over the whole programme, as known at a size of the ledger.
 *
 * Worked out over all sites, whoever asks: what is pooled and what limits follow from the false alarms accepted hang on all
 * of them, and a site lead is told of the own site what the officer is told. Whoever calls this keeps to the sites that the
 * person may see.
 */
export function signalsOf(store: Store, from: string, to: string, size: number): Promise<SignalsOf> {
  const mine = kept.get(store) ?? new Map<string, Promise<SignalsOf>>();
  kept.set(store, mine);
  const key = `${size} ${from} ${to}`;
  const before = mine.get(key);
  if (before !== undefined) return before;
  const oldest = [...mine.keys()][0];
  if (mine.size >= MOST_KEPT && oldest !== undefined) mine.delete(oldest);
  const now = workedOut(store, from, to, size);
  mine.set(key, now);
  now.catch(() => mine.delete(key)); // a broken read is not kept; whoever awaits it hears of it
  return now;
}

/** What a ledger of some size tells never changes: it is kept for as long as the store is open. */
const kept = new WeakMap<Store, Map<string, Promise<SignalsOf>>>();
const MOST_KEPT = 40;

async function workedOut(store: Store, from: string, to: string, size: number): Promise<SignalsOf> {
  const { streams, accepted, reading } = await programmePast(store, to, size);
  const months = monthsBetween(from, to).map((month) => watchMonth(streams, month, accepted, reading));
  const common = months.flatMap(togetherIn);
  const raised = [...common, ...months.flatMap(({ signals }) => signals)];
  const last = daysOfMonth(to).to;
  return {
    signals: raised.map((signal) => ({
      ...signal,
      state: stateOf(signal, raised, months.at(-1), last),
      together: signal.site !== null && isPartOf(signal, common),
    })),
    months: months.map(({ month, limits, streams: all, expectedFalse }) => ({
      month,
      streams: all.length,
      accepted: limits.expected,
      expectedFalse,
    })),
  };
}

/** The signals that stand at the end of a month: of each stream the one said last. */
export async function signalsStanding(store: Store, month: string, size: number): Promise<SignalState[]> {
  const { signals } = await signalsOf(store, plusMonths(month, 1 - STANDS_MONTHS), month, size);
  const standing = signals.filter(({ state }) => state === "stands");
  return standing.filter((one) => !standing.some((other) => sameStream(one, other) && other.raisedOn > one.raisedOn));
}

function stateOf(
  signal: Signal,
  all: readonly Signal[],
  now: WatchedMonth | undefined,
  last: string,
): SignalState["state"] {
  const later = all.filter((other) => sameStream(signal, other) && other.raisedOn > signal.raisedOn);
  if (later.some(({ direction }) => direction !== signal.direction)) return "turned";
  const until = daysOfMonth(plusMonths(monthOf(signal.raisedOn), STANDS_MONTHS - 1)).to;
  if (signal.site === null) return last > until ? "ended" : "stands";
  const running = now?.streams.find(({ name }) => sameStream(name, signal))?.references.at(-1)?.series;
  const begun = running?.day[0];
  if (running === undefined || begun === undefined || dayOf(begun) > signal.raisedOn) return "ended";
  if (isBack(signal, running)) return "back";
  return last > until ? "ended" : "stands";
}

/** The last days are nearer to the level before than to the one after; told from as few as five of them. */
function isBack(signal: Signal, { day, value, mass }: Series): boolean {
  const from = Math.max(placeOf(day, dayNumber(signal.sinceFrom)), day.length - LAST_DAYS);
  if (day.length - from < FEWEST_LAST_DAYS) return false;
  let [sum, weight] = [0, 0];
  for (let i = from; i < day.length; i++) {
    sum += value[i]! * mass[i]!;
    weight += mass[i]!;
  }
  const level = sum / weight;
  return Math.abs(level - Math.log(signal.before)) < Math.abs(level - Math.log(signal.after));
}

function sameStream(a: Pick<Signal, "site" | "method" | "measure">, b: typeof a): boolean {
  return a.site === b.site && a.method === b.method && a.measure === b.measure;
}

/** The streams of all sites up to the end of a month, and the false alarms accepted. */
async function programmePast(store: Store, month: string, size: number) {
  const last = daysOfMonth(month).to;
  return asPerson({ store, person: OPERATOR.id }, async (tx) => {
    const sites = (await allSites(tx)).map(({ id }) => id);
    const facts = await factsOf(tx, sites, size);
    const past = sites.map((site) => ({ site, from: BEGINNING, to: last }));
    const sums = await daySumsWithin(tx, past, STREAM_SUMS, size);
    const spans = await fuelSpansTouching(tx, past, last, size);
    const streams = sites.flatMap((site) =>
      streamsOf({
        site,
        sums: sums.filter((sum) => sum.site === site),
        spans: spans.filter((span) => span.site === site),
        facts: facts.filter((fact) => fact.site === site && fact.from <= last),
      }),
    );
    const programme = facts.filter(({ site }) => site === 0);
    const said = inForce(programme, "false-alarms", last);
    return { streams, accepted: said?.perMonth ?? 1, reading: said?.reading ?? ("on-average" as const) };
  });
}
