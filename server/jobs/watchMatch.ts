import { isSupported } from "#server/drift/supported";
import { dayNumber, monthOf } from "#server/terms/days";
import type { Signal } from "#server/terms/signal";
import { type SignalKey, type SignalRow, signalKey, streamKey, TOGETHER } from "./watchOrder";

/** A signal by the name it keeps, with what the days as known now say of it; `now` null: nothing any more. */
export interface Named {
  readonly key: SignalKey;
  readonly now: Signal | null;
  /** what was last told of it; null where it is new */
  readonly told: SignalRow | null;
}

/**
 * Lays what was found beside what was raised before, stream by stream.
 *
 * A change that was already raised is not raised again under a neighbouring day of its month: it keeps the day it was raised
 * on, and what is said of it is said anew. What is found and was never raised is new; what was raised and is found no more
 * stays, without support. Whether only the last months are laid beside each other or all of them, the same is laid
 * together. `ever` are all that were ever told, also in months before those that are laid beside each other.
 */
export function named(
  raised: readonly SignalRow[],
  found: readonly Signal[],
  ever: readonly SignalRow[] = raised,
): Named[] {
  const groups = new Map<string, Group>();
  const groupOf = (stream: string) => {
    const group = groups.get(stream) ?? { raised: [], found: [], ever: [] };
    groups.set(stream, group);
    return group;
  };
  for (const one of raised) groupOf(`${streamKey(one)} ${one.direction}`).raised.push(one);
  for (const one of found) groupOf(`${streamKey(one)} ${one.direction}`).found.push(one);
  for (const one of ever) groups.get(`${streamKey(one)} ${one.direction}`)?.ever.push(one);
  return [...groups.values()].flatMap(ofStream);
}

/** What is laid beside each other of one stream and one direction. */
interface Group {
  readonly raised: SignalRow[];
  readonly found: Signal[];
  /** all that was ever told of it */
  readonly ever: SignalRow[];
}

function ofStream({ raised, found, ever }: Group): Named[] {
  const free = new Set(found);
  const taken = new Map<SignalRow, Signal>();
  const inOrder = [...raised].sort((a, b) => (a.raisedOn < b.raisedOn ? -1 : 1));
  for (const one of inOrder) {
    const same = found.find((other) => other.raisedOn === one.raisedOn);
    if (same !== undefined) take(one, same);
  }
  const moved = inOrder.filter((one) => !taken.has(one));
  for (const { one, other } of nearestFirst(moved, [...free])) if (!taken.has(one) && free.has(other)) take(one, other);
  const known: Named[] = inOrder.map((told) => ({ key: keyOf(told), now: taken.get(told) ?? null, told }));
  const fresh = [...free].map((now): Named => ({ key: { ...keyOf(now) }, now, told: null }));
  return confirmedByName([...known, ...fresh], ever);

  function take(one: SignalRow, other: Signal): void {
    taken.set(one, other);
    free.delete(other);
  }
}

/**
 * A signal that says an earlier one again names the day that the first of them keeps.
 *
 * A later month scores the days before it by its own parameters, under which an earlier signal may fall on a neighbouring
 * day that was never told: then the told one nearest to it is meant. Null where none was told before. Whether only the last
 * months are laid beside each other or all of them, the same is named.
 */
function confirmedByName(all: readonly Named[], ever: readonly SignalRow[]): Named[] {
  const nameOf = new Map(all.flatMap(({ key, now }) => (now === null ? [] : [[now.raisedOn, key.raisedOn] as const])));
  const firstOf = new Map<string, string | null>(ever.map(({ raisedOn, confirms }) => [raisedOn, confirms]));
  const inOrder = [...all].sort((a, b) => (a.key.raisedOn < b.key.raisedOn ? -1 : 1));
  return inOrder.map((one) => {
    const { key, now } = one;
    if (now === null) return one;
    const confirms = now.confirms === null ? null : firstBefore(key.raisedOn, nameOf.get(now.confirms) ?? now.confirms);
    firstOf.set(key.raisedOn, confirms);
    return { ...one, now: { ...now, confirms } };
  });

  function firstBefore(day: string, meant: string): string | null {
    const near = nearest(
      [...firstOf.keys()].filter((other) => other < day),
      meant,
    );
    return near === null ? null : (firstOf.get(near) ?? near);
  }
}

function nearest(days: readonly string[], to: string): string | null {
  const apart = (day: string) => Math.abs(dayNumber(day) - dayNumber(to));
  return days.reduce<string | null>((best, day) => (best === null || apart(day) < apart(best) ? day : best), null);
}

/** What was raised beside what of the same month still tells of it, those fewest days apart first. */
function nearestFirst(raised: readonly SignalRow[], found: readonly Signal[]) {
  return raised
    .flatMap((one) =>
      found
        .filter((other) => monthOf(other.raisedOn) === monthOf(one.raisedOn) && isSupported(one, [other]))
        .map((other) => ({ one, other, apart: Math.abs(dayNumber(one.raisedOn) - dayNumber(other.raisedOn)) })),
    )
    .sort((a, b) => a.apart - b.apart);
}

export function keyOf({
  site,
  method,
  measure,
  raisedOn,
  direction,
}: Omit<SignalKey, "site"> & { site: number | null }): SignalKey {
  return { site: site ?? TOGETHER, method, measure, raisedOn, direction };
}

/** Of every signal the row that was told last, by its month and then by its record. */
export function lastTold(rows: readonly SignalRow[]): SignalRow[] {
  const last = new Map<string, SignalRow>();
  for (const row of rows) {
    const before = last.get(signalKey(row));
    if (before === undefined || row.month >= before.month) last.set(signalKey(row), row);
  }
  return [...last.values()];
}
