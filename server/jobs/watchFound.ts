import { type Pool, poolsOf, quarterOf } from "#server/drift/pools";
import { lifeOf } from "#server/drift/reference";
import { placeOf, type Series } from "#server/drift/series";
import { slowChanges } from "#server/drift/slowChange";
import { type ProgrammeStream, type WatchedMonth, watchHeld } from "#server/drift/watchMonth";
import { mean } from "#server/statistics/moments";
import { sumOf } from "#server/statistics/sum";
import { dayNumber, dayOf, daysOfMonth, monthsBetween } from "#server/terms/days";
import type { Acknowledged, Signal, StreamName } from "#server/terms/signal";
import { togetherIn } from "./together";
import { watchingAgain } from "./watchAgain";
import { heldFor } from "./watchHeldTo";
import { type MonthRow, type StreamRow, streamKey, TOGETHER, type WatchOrder } from "./watchOrder";
import { recordSignals } from "./watchRecords";

/** What one month's days tell, before it is laid beside what was told of it earlier. */
export interface MonthFound {
  readonly row: MonthRow;
  readonly streams: readonly StreamRow[];
  readonly signals: readonly Signal[];
  /** the reference that ran at the month's end, by stream: its days */
  readonly running: ReadonlyMap<string, Series>;
}

/** Watches the months of an order one after the other. */
export function monthsFound(order: WatchOrder): MonthFound[] {
  const acknowledged = acknowledgedBy(order);
  const all = order.sites.flatMap(({ streams }) =>
    streams.map(
      ({ name, series, declared }): ProgrammeStream => ({ name, series, life: lifeOf(declared, acknowledged(name)) }),
    ),
  );
  const kept = new Map(order.months.map((one) => [one.month, one]));
  let pooled: { readonly quarter: string; readonly pools: Pool[] } | null = null;
  const again = watchingAgain(order.to);
  const found = monthsBetween(order.from, order.to).map((month) => {
    const end = dayNumber(daysOfMonth(month).to);
    const streams = all.filter(({ series }) => series.day.length > 0 && series.day[0]! <= end);
    const pools = () => {
      if (pooled?.quarter !== quarterOf(month)) pooled = { quarter: quarterOf(month), pools: poolsOf(all, month) };
      return pooled.pools;
    };
    const said = order.accepted[month] ?? { perMonth: 1, reading: "on-average" as const };
    const held = heldFor(streams, month, order, kept.get(month), said, pools);
    const watched = watchHeld(streams, month, held, again.inMonth(month));
    const { from } = daysOfMonth(month);
    const rows = streamRows(watched, dayNumber(from), end);
    return {
      row: {
        ...held,
        month,
        edition: order.edition,
        streams: rows.filter(({ points }) => points > 0).length,
        points: rows.reduce((sum, { points }) => sum + points, 0),
        expectedFalse: watched.expectedFalse,
        knownSize: order.knownSize,
      },
      streams: rows,
      signals: [
        ...togetherIn(watched, acknowledged),
        ...watched.signals,
        ...recordSignals(order.sites, month, held, order.today),
      ],
      running: new Map(
        watched.streams.flatMap(({ name, references }) => {
          const last = references.at(-1);
          return last === undefined ? [] : [[streamKey(name), last.series] as const];
        }),
      ),
    };
  });
  again.done();
  return found;
}

/** What was answered to the signals of a stream. */
function acknowledgedBy({ answers }: WatchOrder): (name: StreamName) => readonly Acknowledged[] {
  const byStream = new Map<string, Acknowledged[]>();
  for (const { acknowledged, ...key } of answers) {
    const stream = streamKey(key);
    byStream.set(stream, [...(byStream.get(stream) ?? []), acknowledged]);
  }
  return (name) => byStream.get(streamKey(name)) ?? [];
}

function streamRows({ month, streams }: WatchedMonth, from: number, to: number): StreamRow[] {
  const running = streams.flatMap(({ name, group, references }) => {
    const last = references.at(-1);
    return last === undefined ? [] : [{ name, group, references, last }];
  });
  const slow = slowChanges(
    running.map(({ last, group }) => ({ series: last.series, pooled: group.pooled })),
    dayNumber(`${quarterOf(month)}-01`),
  );
  return running.map(({ name, references, last: { reference, series, scored } }, i) => {
    const inMonth = references.map(({ series: { day } }) => placeOf(day, to + 1) - placeOf(day, from));
    const { adjusted: _adjusted, named: _named, ...compared } = slow[i] ?? { adjusted: 1, named: false, effect: null };
    return {
      month,
      site: name.site ?? TOGETHER,
      method: name.method,
      measure: name.measure,
      points: sumOf(inMonth, (count) => count),
      referenceFrom: series.day.length === 0 ? null : dayOf(reference.from ?? series.day[0]!),
      begunBy: reference.begunBy,
      learnt: scored.learnt,
      unit: scored.unit,
      level: series.value.length === 0 ? null : Math.exp(mean(series.value)),
      slow: compared.effect === null ? null : compared,
    };
  });
}
