import { expect, test } from "vitest";
import { lifeOf } from "#server/drift/reference";
import { seriesOf } from "#server/drift/series";
import { type ProgrammeStream, watchMonth } from "#server/drift/watchMonth";
import { monthsBetween } from "#server/terms/days";
import { WATCHED } from "#server/terms/signal";
import { workingDays } from "./streams";

const MEASURES = WATCHED.slice(0, 3);
const MONTHS = monthsBetween("2031-01", "2031-12");

/** Twelve sites with three measures for a year; some streams step at a day of theirs. */
function programme(
  seed: number,
  steps: Readonly<Record<string, { at: number; times: number }>> = {},
  sites = 12,
): ProgrammeStream[] {
  return Array.from({ length: sites }, (_, i) => i + 1).flatMap((site) =>
    MEASURES.map((measure, m) => ({
      name: { site, method: "sand-pan" as const, measure },
      series: seriesOf(workingDays(1000 * seed + 10 * site + m, 310, steps[`${site} ${measure}`])).series,
      life: lifeOf([], []),
    })),
  );
}

test("a year in which nothing changes keeps what was accepted, over some programmes", () => {
  let came = 0;
  let promised = 0;
  for (let seed = 1; seed <= 4; seed++) {
    const streams = programme(seed);
    for (const month of MONTHS) {
      const { signals, expectedFalse } = watchMonth(streams, month);
      came += signals.length;
      promised += expectedFalse;
    }
  }
  expect(promised).toBeGreaterThan(27);
  expect(promised).toBeLessThan(4 * 12 * 0.8);
  // independent days with careful defaults in the first quarter: not more than promised, and not silent either
  expect(came / promised).toBeGreaterThan(0.4);
  expect(came / promised).toBeLessThan(1.3);
}, 20_000);

test("steps of two spreads are found, each in its own stream with its own direction", () => {
  const steps = {
    "2 dry-yield": { at: 120, times: 1.11 },
    "5 throughput": { at: 160, times: 0.9 },
    "9 fuel-intensity": { at: 200, times: 1.12 },
  };
  const streams = programme(3, steps);
  const signals = MONTHS.flatMap((month) => watchMonth(streams, month).signals);
  for (const [key, { at, times }] of Object.entries(steps)) {
    const changed = workingDays(1, 310)[at]!.day;
    const first = signals.find(
      (signal) => `${signal.site} ${signal.measure}` === key && signal.raisedOn >= changed && signal.confirms === null,
    );
    expect(first?.direction, key).toBe(times > 1 ? "up" : "down");
    expect(first!.sinceFrom <= changed && changed <= first!.sinceTo, key).toBe(true);
    expect(first!.raisedOn < workingDays(1, 310)[at + 26]!.day, key).toBe(true);
  }
});

test("what comes after a month does not change what was said of it, nor does the order or a silent site", () => {
  const streams = programme(2, { "1 dry-yield": { at: 100, times: 1.2 } }, 7);
  const cut = streams.map((one) => ({
    ...one,
    series: {
      ...one.series,
      day: one.series.day.subarray(0, 130),
      value: one.series.value.subarray(0, 130),
      mass: one.series.mass.subarray(0, 130),
    },
  }));
  const whole = watchMonth(streams, "2031-05");
  expect(whole.signals.length).toBeGreaterThan(0);
  expect(watchMonth(cut, "2031-05").signals).toEqual(whole.signals);
  const turned = watchMonth([...streams].reverse(), "2031-05");
  expect(turned.signals.filter(({ site }) => site === 1)).toEqual(whole.signals.filter(({ site }) => site === 1));
  expect(turned.limits).toEqual(whole.limits);
  const silent: ProgrammeStream = {
    ...streams[0]!,
    name: { ...streams[0]!.name, site: 99 },
    series: seriesOf([]).series,
  };
  expect(watchMonth([silent, ...streams], "2031-05").signals).toEqual(whole.signals);
});

test("a programme of its first month has defaults, and limits that are not a hair trigger", () => {
  const { groups, limits, signals } = watchMonth(programme(4), "2031-01");
  expect(groups.map(({ pooled }) => pooled.from)).toEqual(["defaults", "defaults", "defaults"]);
  expect(limits.limit).toBeGreaterThan(2.4);
  expect(signals.length).toBeLessThan(4);
  expect(watchMonth([], "2031-01")).toMatchObject({ signals: [], groups: [], expectedFalse: 0 });
});
