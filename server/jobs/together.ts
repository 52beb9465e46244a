import { commonEffect, commonPooled, commonSeries, FEWEST_PEERS } from "#server/drift/programmeWide";
import { lifeOf } from "#server/drift/reference";
import type { Series } from "#server/drift/series";
import { type WatchedBriefly, watchStream } from "#server/drift/watch";
import type { Group, WatchedMonth } from "#server/drift/watchMonth";
import { median } from "#server/statistics/moments";
import { dayNumber, monthOf, plusDays } from "#server/terms/days";
import type { Acknowledged, Signal, StreamName } from "#server/terms/signal";

/** Weeks are told by their Sunday, and a site feels the rain a week before or after another. */
const NEAR_DAYS = 14;

/** What the references of a group's streams have in common, week by week. */
export type CommonOf = (group: Group, references: readonly WatchedBriefly[]) => Series;

/**
 * Changes that the sites of a method made together, raised in a month: season, rain, a new feed. Their site is null.
 *
 * `acknowledged` says what was answered to the signals of a stream. What is watched is the middle of the sites' scores, week by week; its size is told as the mean of the sites' own changes.
 * Who remembers what they had in common may hand in `commonOf`.
 */
export function togetherIn(
  { month, groups, streams }: WatchedMonth,
  acknowledged: (name: StreamName) => readonly Acknowledged[],
  commonOf: CommonOf = (_group, references) => commonSeries(references),
): Signal[] {
  return groups.flatMap((group) => {
    const mine = streams.filter(({ name }) => name.method === group.method && name.measure === group.measure);
    const references = mine.flatMap((stream) => stream.references);
    const common = commonOf(group, references);
    if (common.day.length === 0) return [];
    const { method, measure } = group;
    const life = lifeOf([], acknowledged({ site: null, method, measure }));
    const watched = watchStream(common, life, commonPooled(common), group.rules, "value");
    const raised = watched.flatMap(({ signals }) => signals).filter(({ raisedOn }) => monthOf(raisedOn) === month);
    const series = references.map((reference) => reference.series);
    return raised.flatMap((signal) => {
      const effect = commonEffect(series, dayNumber(signal.since ?? signal.sinceFrom), dayNumber(signal.raisedOn));
      const told = effect !== null && (signal.direction === "up" ? effect.low > 0 : effect.high < 0);
      if (effect === null || !told) return [];
      const before = Math.exp(median(series.map(({ value }) => median(value) ?? 0)) ?? 0);
      const share = Math.expm1(effect.effect);
      return [
        {
          ...signal,
          site: null,
          method,
          measure,
          chart: "drift" as const,
          change: share,
          low: Math.expm1(effect.low),
          high: Math.expm1(effect.high),
          before,
          after: before * (1 + share),
          per30Days: 0,
        },
      ];
    });
  });
}

/**
 * True where a site's change is part of what its like did together: same measure, method and way, begun about when theirs
 * did. A day that was not determined is taken by its span.
 *
 * `lone` says that too few sites share the method for anything to be told of them together. Rain and season do not ask for
 * the dryer, and changes are judged in each stream's own spread; so such a site is then laid beside every method.
 */
export function isPartOf(signal: Signal, together: readonly Signal[], lone = false): boolean {
  const [first, last] = [signal.since ?? signal.sinceFrom, signal.since ?? signal.sinceTo];
  return together.some(
    (one) =>
      one.measure === signal.measure &&
      (lone || one.method === signal.method) &&
      one.direction === signal.direction &&
      first <= plusDays(one.sinceTo, NEAR_DAYS) &&
      plusDays(one.sinceFrom, -NEAR_DAYS) <= last,
  );
}

/** True where a method has too few streams of a measure for anything to be told of its sites together. */
export function isLone(
  { method, measure }: Pick<StreamName, "method" | "measure">,
  names: readonly StreamName[],
): boolean {
  return names.filter((name) => name.method === method && name.measure === measure).length < FEWEST_PEERS;
}
