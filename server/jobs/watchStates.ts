import { placeOf, type Series } from "#server/drift/series";
import { dayNumber, dayOf, daysOfMonth, monthOf, plusDays, plusMonths } from "#server/terms/days";
import type { SignalStanding } from "#server/terms/signalTold";
import type { MonthFound } from "./watchFound";
import type { Named } from "./watchMatch";
import { type SignalKey, signalKey, streamKey, TOGETHER, type WatchOrder } from "./watchOrder";
import { recordIsBack } from "./watchRecords";

/** A signal that nobody answers stands for so many months after it was raised: by then its chart has learnt the new level. */
export const STANDS_MONTHS = 3;
/** The level of today is that of so many last days. */
const LAST_DAYS = 10;
const FEWEST_LAST_DAYS = 5;
/** An undated change is taken to lie in the fortnight before its signal. */
const OPEN_DAYS = 14;

/** The last month at whose end a signal can stand. */
export function lastMonthOf({ raisedOn }: Pick<SignalKey, "raisedOn">): string {
  return plusMonths(monthOf(raisedOn), STANDS_MONTHS - 1);
}

/** What became of signals, asked one by one. */
export interface Standings {
  /** by the end of a month */
  readonly stateOf: (signal: Named, found: MonthFound) => SignalStanding;
  /** whether the days as known now still tell of it, or an answer or a declaration says why they do not */
  readonly hasSupport: (signal: Named) => boolean;
}

export function standingsOf(order: WatchOrder, all: readonly Named[]): Standings {
  const answered = new Set(order.answers.map(signalKey));
  const begun = beginningsOf(order);
  const byStream = new Map<string, Named[]>();
  for (const one of all) {
    if (one.now === null) continue;
    const stream = streamKey(one.key);
    byStream.set(stream, [...(byStream.get(stream) ?? []), one]);
  }
  const isExplained = ({ key, told }: Named) => {
    const open = plusDays(key.raisedOn, -OPEN_DAYS);
    const first = told?.dateDetermined === true && told.sinceFrom < open ? told.sinceFrom : open;
    return (begun.get(streamKey(key)) ?? []).some((from) => from >= first && from <= key.raisedOn);
  };
  const stateOf = (signal: Named, { row, running }: MonthFound): SignalStanding => {
    const { key, now } = signal;
    const { month } = row;
    if (answered.has(signalKey(key))) return "ended";
    if (now === null) return isExplained(signal) ? "ended" : "unsupported";
    const last = daysOfMonth(month).to;
    const isLater = ({ key: { raisedOn, direction } }: Named) =>
      raisedOn > key.raisedOn && raisedOn <= last && direction !== key.direction;
    if ((byStream.get(streamKey(key)) ?? []).some(isLater)) return "turned";
    if (key.site === TOGETHER) return "stands";
    if (key.measure === "completeness")
      return recordIsBack(order.sites, key, month, row, order.today) ? "back" : "stands";
    const days = running.get(streamKey(key));
    const first = days?.day[0];
    if (days === undefined || first === undefined || dayOf(first) > key.raisedOn) return "ended";
    return isBack(now, days) ? "back" : "stands";
  };
  const hasSupport = (signal: Named) =>
    signal.now !== null || answered.has(signalKey(signal.key)) || isExplained(signal);
  return { stateOf, hasSupport };
}

/** Days on which a reference was begun by an answer or a declaration, by stream. */
function beginningsOf({ answers, sites }: WatchOrder): ReadonlyMap<string, readonly string[]> {
  const begun = new Map<string, string[]>();
  const begin = (stream: string, from: string) => begun.set(stream, [...(begun.get(stream) ?? []), from]);
  for (const { acknowledged, ...key } of answers)
    if (acknowledged.kind === "real-change") begin(streamKey(key), acknowledged.from);
  for (const { streams } of sites)
    for (const { name, declared } of streams) for (const { from } of declared) begin(streamKey(name), from);
  return begun;
}

/** The last days are nearer to the level before than to the one after; told from as few as five of them. */
function isBack(
  { sinceFrom, before, after }: { readonly sinceFrom: string; readonly before: number; readonly after: number },
  { day, value, mass }: Series,
): boolean {
  const from = Math.max(placeOf(day, dayNumber(sinceFrom)), day.length - LAST_DAYS);
  if (day.length - from < FEWEST_LAST_DAYS) return false;
  let [sum, weight] = [0, 0];
  for (let i = from; i < day.length; i++) {
    sum += value[i]! * mass[i]!;
    weight += mass[i]!;
  }
  const level = sum / weight;
  return Math.abs(level - Math.log(before)) < Math.abs(level - Math.log(after));
}
