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

/** What became of a signal by the end of a month. `all` are the signals that have support, whenever they were raised. */
export function stateOf(signal: Named, all: readonly Named[], found: MonthFound, order: WatchOrder): SignalStanding {
  const { key, now } = signal;
  const { month, recordChance } = found.row;
  if (order.answers.some((answer) => signalKey(answer) === signalKey(key))) return "ended";
  const running = found.running.get(streamKey(key));
  if (now === null) return isExplained(signal, order) ? "ended" : "unsupported";
  const last = daysOfMonth(month).to;
  const later = all.filter(
    (other) =>
      streamKey(other.key) === streamKey(key) && other.key.raisedOn > key.raisedOn && other.key.raisedOn <= last,
  );
  if (later.some((other) => other.key.direction !== key.direction)) return "turned";
  if (key.site === TOGETHER) return "stands";
  if (key.measure === "completeness")
    return recordIsBack(order.sites, key, month, recordChance, order.today) ? "back" : "stands";
  const begun = running?.day[0];
  if (running === undefined || begun === undefined || dayOf(begun) > key.raisedOn) return "ended";
  return isBack(now, running) ? "back" : "stands";
}

/** Whether a reference that was begun since, by an answer or a declaration, took the place of the days that told of it. */
function isExplained({ key, told }: Named, order: WatchOrder): boolean {
  const answered = order.answers.flatMap(({ acknowledged, ...answer }) =>
    streamKey(answer) === streamKey(key) && acknowledged.kind === "real-change" ? [acknowledged.from] : [],
  );
  const stream = order.sites
    .find(({ site }) => site === key.site)
    ?.streams.find(({ name }) => streamKey(name) === streamKey(key));
  const begun = [...answered, ...(stream?.declared ?? []).map(({ from }) => from)];
  const open = plusDays(key.raisedOn, -OPEN_DAYS);
  const first = told?.dateDetermined === true && told.sinceFrom < open ? told.sinceFrom : open;
  return begun.some((from) => from >= first && from <= key.raisedOn);
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
