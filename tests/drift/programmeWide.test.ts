import { expect, test } from "vitest";
import { DEFAULTS, type Rules } from "#server/drift/parameters";
import { commonEffect, commonPooled, commonSeries } from "#server/drift/programmeWide";
import { scoreSeries } from "#server/drift/score";
import { seriesOf } from "#server/drift/series";
import { dayNumber, dayOf, weekday } from "#server/terms/days";
import { workingDays } from "./streams";

const RULES: Rules = { learn: 12, lambda: 0.1, clamp: 3, edge: 0.68, spikeAt: 5.2 };

function peers(count: number, times: number, first = 0) {
  return Array.from({ length: count }, (_, i) => {
    const { series } = seriesOf(workingDays(first + i + 1, 200, { at: 150, times }));
    return { series, scored: scoreSeries(series, { ...DEFAULTS, omega: 0.3, rho: 0 }, RULES) };
  });
}

test("a movement of every site is seen in the common stream, with its size", () => {
  const sites = peers(10, 1.06);
  const common = commonSeries(sites);
  expect(weekday(dayOf(common.day[0]!))).toBe(7);
  expect(common.mass[5]).toBe(10);
  const scored = scoreSeries(common, commonPooled(common), RULES);
  const changed = sites[0]!.series.day[150]!;
  expect(scored.crossings.some((i) => common.day[i]! >= changed && common.day[i]! <= changed + 28)).toBe(true);
  const effect = commonEffect(
    sites.map(({ series }) => series),
    changed,
    changed + 28,
  )!;
  expect(effect.streams).toBe(10);
  expect(effect.low).toBeLessThan(Math.log(1.06));
  expect(effect.high).toBeGreaterThan(Math.log(1.06));
});

test("sites that go on as before have nothing in common, in most programmes", () => {
  let signals = 0;
  for (let run = 0; run < 20; run++) {
    const common = commonSeries(peers(8, 1, 100 * run));
    signals += scoreSeries(common, commonPooled(common), RULES).crossings.length;
  }
  // 20 × 20 weeks at one signal in 780 weeks
  expect(signals).toBeLessThanOrEqual(3);
});

test("fewer than five sites have no common stream and no common effect", () => {
  const sites = peers(4, 1.2);
  expect(commonSeries(sites).day).toHaveLength(0);
  expect(
    commonEffect(
      sites.map(({ series }) => series),
      dayNumber("2031-06-01"),
      dayNumber("2031-07-01"),
    ),
  ).toBeNull();
});

test("the order of the sites leaves no trace", () => {
  const sites = peers(7, 1.1);
  expect(commonSeries([...sites].reverse())).toEqual(commonSeries(sites));
});
