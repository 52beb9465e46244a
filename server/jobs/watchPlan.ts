import { canonical } from "#server/evidence/canonical";
import { monthOf, monthsBetween, plusMonths } from "#server/terms/days";
import type { Signal } from "#server/terms/signal";
import { signalCost } from "./signalCost";
import { isPartOf } from "./together";
import { type MonthFound, monthsFound } from "./watchFound";
import { keyOf, lastTold, type Named, named } from "./watchMatch";
import { type SignalRow, signalKey, streamKey, TOGETHER, type WatchOrder, type WatchRows } from "./watchOrder";
import { lastMonthOf, STANDS_MONTHS, stateOf } from "./watchStates";

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
  const kept = new Map(order.signals.map((row) => [`${signalKey(row)} ${row.month}`, row]));
  const isInScope = ({ raisedOn }: { readonly raisedOn: string }) => monthOf(raisedOn) >= order.from;
  const told = lastTold(order.signals);
  const earlier = told
    .filter((row) => !isInScope(row) && lastMonthOf(row) >= order.from)
    .map((row): Named => ({ key: keyOf(row), now: row.state === "unsupported" ? null : asTold(row), told: row }));
  const all = [
    ...earlier,
    ...named(
      told.filter(isInScope),
      found.flatMap(({ signals }) => signals),
    ),
  ];
  const supported = all.filter(({ now }) => now !== null);
  const common = supported.flatMap(({ key, now }) => (key.site === TOGETHER && now !== null ? [now] : []));
  return all.flatMap((signal) => {
    const { key } = signal;
    const rows: SignalRow[] = [];
    const raisedIn = monthOf(key.raisedOn);
    let before = earlierRow(kept, signal, order.from);
    for (const month of monthsBetween(raisedIn, lastMonthOf(key)).filter((one) => one >= order.from)) {
      const at = found.find(({ row }) => row.month === month);
      if (at === undefined) break;
      const row = rowOf(signal, month, stateOf(signal, supported, at, order), common, order);
      const same = kept.get(`${signalKey(key)} ${month}`);
      const held = same ?? before;
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
    together: !isCommon && isPartOf({ ...said, site: key.site }, known),
    costDriedKg: isCommon ? null : now === null ? (told?.costDriedKg ?? null) : signalCost(now, dryYield),
  };
}

function asTold(row: SignalRow): Signal {
  return { ...row, site: row.site === TOGETHER ? null : row.site };
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
