import { type Pool, poolsOf, quarterOf } from "#server/drift/pools";
import { lifeOf } from "#server/drift/reference";
import { placeOf, type Series } from "#server/drift/series";
import { quarterAgainstPast } from "#server/drift/slowChange";
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
    const rows = streamRows(watched);
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
        ...togetherIn(watched, acknowledged, again.commonIn(month)),
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

/** How far each stream had come, of those with a reference. */
function streamRows({ month, streams }: WatchedMonth): StreamRow[] {
  return streams.flatMap((stream) => {
    const before = rowsOf.get(stream.references);
    if (before !== undefined) return [before];
    const row = streamRow(month, stream);
    if (row !== null) rowsOf.set(stream.references, row);
    return row === null ? [] : [row];
  });
}

/** A row follows from its stream's references and their month alone, so that it lasts as long as they are kept. */
const rowsOf = new WeakMap<WatchedMonth["streams"][number]["references"], StreamRow>();

function streamRow(month: string, { name, group, references }: WatchedMonth["streams"][number]): StreamRow | null {
  const last = references.at(-1);
  if (last === undefined) return null;
  const { reference, series, scored } = last;
  const { from, to } = daysOfMonth(month);
  const [first, end] = [dayNumber(from), dayNumber(to)];
  return {
    month,
    site: name.site ?? TOGETHER,
    method: name.method,
    measure: name.measure,
    points: sumOf(references, (one) => placeOf(one.series.day, end + 1) - placeOf(one.series.day, first)),
    referenceFrom: series.day.length === 0 ? null : dayOf(reference.from ?? series.day[0]!),
    begunBy: reference.begunBy,
    learnt: scored.learnt,
    unit: scored.unit,
    level: series.value.length === 0 ? null : Math.exp(mean(series.value)),
    slow: quarterAgainstPast(series, group.pooled, dayNumber(`${quarterOf(month)}-01`)),
  };
}
