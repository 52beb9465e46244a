import { canonical } from "#server/evidence/canonical";
import { dayNumber, daysOfMonth, monthOf, monthsBetween, plusMonths } from "#server/terms/days";
import type { Signal } from "#server/terms/signal";
import { signalCost } from "./signalCost";
import { isLone, isPartOf } from "./together";
import { type MonthFound, monthsFound } from "./watchFound";
import { lastTold, type Named, named } from "./watchMatch";
import { type SignalRow, signalKey, streamKey, TOGETHER, type WatchOrder, type WatchRows } from "./watchOrder";
import { lastMonthOf, STANDS_MONTHS, standingsOf } from "./watchStates";

/**
 * What watching some months has to record: what is new, and what is to be said otherwise than it was.
 *
 * A pure function of its order: the days as known at a size of the ledger, the parameters recorded for their months, the
 * answers, and what was told before. Asked again with what it said recorded, it has nothing to add.
 */
export function watchPlan(order: WatchOrder): WatchRows {
  const found = monthsFound(order);
  const signals = signalRows(order, found);
  const months = changed(
    found.map(({ row }) => row),
    order.months,
    ({ month }) => month,
    ({ knownSize: _size, ...row }) => row,
  );
  const streams = changed(
    found.flatMap((one) => one.streams),
    order.streams,
    (one) => `${one.month} ${streamKey(one)}`,
  );
  const last = found.at(-1)?.row;
  const some = signals.length + months.length + streams.length > 0;
  const witness = some && last !== undefined && !months.includes(last) ? [last] : [];
  return { signals, streams, months: [...months, ...witness] };
}

function signalRows(order: WatchOrder, found: readonly MonthFound[]): SignalRow[] {
  const { from, sayFrom } = order;
  const kept = new Map(order.signals.map((row) => [`${signalKey(row)} ${row.month}`, row]));
  const isWatched = ({ raisedOn }: { readonly raisedOn: string }) => monthOf(raisedOn) >= from;
  const told = lastTold(order.signals);
  const laid = named(
    told.filter(isWatched),
    found.flatMap(({ signals }) => signals),
    told,
  );
  // what is found in a month of which nothing changed was told before, if under a day before the months watched
  const all = laid.filter((one) => one.told !== null || monthOf(one.key.raisedOn) >= sayFrom);
  const standing = standingsOf(order, all);
  const common = [
    ...told.filter((row) => !isWatched(row) && row.site === TOGETHER && row.state !== "unsupported"),
    ...all.flatMap((one) => (one.key.site === TOGETHER && standing.hasSupport(one) ? [one.now ?? one.told] : [])),
  ].flatMap((row) => (row === null ? [] : [{ ...row, site: null }]));
  return all.flatMap((signal) => {
    const rows: SignalRow[] = [];
    let before = earlierRow(kept, signal, sayFrom);
    const months = monthsBetween(monthOf(signal.key.raisedOn), lastMonthOf(signal.key));
    for (const month of months.filter((one) => one >= sayFrom)) {
      const at = found.find(({ row }) => row.month === month);
      if (at === undefined) break;
      const row = rowOf(signal, month, standing.stateOf(signal, at), common, order);
      const held = kept.get(`${signalKey(signal.key)} ${month}`) ?? before;
      if (held === undefined || !isAlike(row, held)) rows.push(row);
      before = row;
    }
    return rows;
  });
}

/** What was last said of a signal before some month. */
function earlierRow(kept: ReadonlyMap<string, SignalRow>, { key }: Named, from: string): SignalRow | undefined {
  for (let back = 1; back < STANDS_MONTHS; back++) {
    const row = kept.get(`${signalKey(key)} ${plusMonths(from, -back)}`);
    if (row !== undefined) return row;
  }
  return undefined;
}

function rowOf(
  { key, now, told }: Named,
  month: string,
  state: SignalRow["state"],
  common: readonly Signal[],
  order: WatchOrder,
): SignalRow {
  const said = now ?? told;
  if (said === null) throw new Error("a signal was either found now or told before");
  const site = order.sites.find((one) => one.site === key.site);
  const dryYield = site?.streams.find(({ name }) => name.measure === "dry-yield" && name.method === key.method)?.series;
  const isCommon = key.site === TOGETHER;
  const known = common.filter(({ raisedOn }) => monthOf(raisedOn) <= month);
  const end = dayNumber(daysOfMonth(month).to);
  const begun = order.sites.flatMap(({ streams }) => streams.filter(({ series }) => (series.day[0] ?? end + 1) <= end));
  const names = begun.map(({ name }) => name);
  return {
    ...key,
    month,
    state,
    chart: said.chart,
    since: said.since,
    sinceFrom: said.sinceFrom,
    sinceTo: said.sinceTo,
    dateDetermined: said.dateDetermined,
    change: said.change,
    low: said.low,
    high: said.high,
    level: said.level,
    before: said.before,
    after: said.after,
    per30Days: said.per30Days,
    daysSince: said.daysSince,
    confirms: said.confirms,
    together: !isCommon && isPartOf({ ...said, site: key.site }, known, isLone(key, names)),
    costDriedKg: isCommon ? null : now === null ? (told?.costDriedKg ?? null) : signalCost(now, dryYield),
  };
}

function isAlike(row: SignalRow, held: SignalRow): boolean {
  return said({ ...row, month: "" }) === said({ ...held, month: "" });
}

function changed<T extends object>(
  now: readonly T[],
  kept: readonly T[],
  nameOf: (one: T) => string,
  told: (one: T) => object = (one) => one,
): T[] {
  const before = new Map(kept.map((one) => [nameOf(one), one]));
  return now.filter((one) => {
    const held = before.get(nameOf(one));
    return held === undefined || said(told(one)) !== said(told(held));
  });
}

/** What a row says, in the form in which the database holds it. */
function said(row: object): string {
  return canonical(JSON.parse(JSON.stringify(row)));
}
