import { expect, test } from "vitest";
import { changesDeclared, streamsOf } from "#server/jobs/streams";
import { daysBetween } from "#server/terms/days";
import type { Fact, FactKind, FactValue } from "#server/terms/facts";
import type { FuelSpan } from "#server/terms/fuel";
import type { DaySum, Summed } from "#server/terms/sums";

const SITE = 3;

function sum(day: string, measure: Summed, num: number, den: number): DaySum {
  return { site: SITE, day, method: "sand-pan", measure, batches: 2, loads: 2, num, den };
}

function dayOfWork(day: string): DaySum[] {
  return [
    sum(day, "here", 2, 2),
    sum(day, "fresh", 20, 2),
    sum(day, "dry-yield", 6.5, 20),
    sum(day, "pan-time", 20, 180),
  ];
}

function fact<K extends FactKind>(kind: K, from: string, value: FactValue<K>, key = ""): Fact {
  return { site: SITE, kind, key, from, to: null, value, ledgerIndex: 1, declaredOn: from };
}

const gas = (from: string, to: string, best: number): FuelSpan => ({
  site: SITE,
  from,
  to,
  fuel: "lpg",
  unit: "kg",
  how: "weighed",
  low: best,
  best,
  high: best,
  shared: false,
});

test("a site has a point a day for yield and pan-hours, and one for each window of fuel", () => {
  const sums = daysBetween("2031-05-05", "2031-05-10").flatMap(dayOfWork);
  const spans = [gas("2031-05-05", "2031-05-07", 5), gas("2031-05-08", "2031-05-10", 5)];
  const streams = streamsOf({ site: SITE, sums, spans, facts: [] });
  expect(streams.map(({ name, series }) => [name.measure, series.day.length])).toEqual([
    ["dry-yield", 6],
    ["throughput", 6],
    ["fuel-intensity", 2],
  ]);
  const [dryYield, pace, fuel] = streams.map(({ series }) => Math.exp(series.value[0]!));
  expect(dryYield).toBeCloseTo(6.5 / 20, 12);
  expect(pace).toBeCloseTo(20 / 3, 12);
  // 5 kg of LPG at 47.3 MJ against three days of 13.5 kg driven off
  expect(fuel).toBeCloseTo((5 * 47.3) / 40.5, 9);
});

test("fuel that the kitchen shares makes no stream", () => {
  const sums = daysBetween("2031-05-05", "2031-05-10").flatMap(dayOfWork);
  const streams = streamsOf({
    site: SITE,
    sums,
    spans: [{ ...gas("2031-05-05", "2031-05-07", 5), shared: true }],
    facts: [],
  });
  expect(streams.map(({ name }) => name.measure)).toEqual(["dry-yield", "throughput"]);
});

test("two ways of drying are two streams", () => {
  const sums = [
    ...dayOfWork("2031-05-05"),
    ...dayOfWork("2031-05-06").map((one) => ({ ...one, method: "sun" as const })),
  ];
  expect(
    streamsOf({ site: SITE, sums, spans: [], facts: [] }).map(({ name }) => `${name.method} ${name.measure}`),
  ).toEqual(["sand-pan dry-yield", "sand-pan throughput", "sun dry-yield", "sun throughput"]);
});

test("what a site first declares changes nothing; what it declares otherwise later begins anew", () => {
  const facts = [
    fact("pans", "2031-01-01", { pans: 2 }),
    fact("pans", "2031-03-01", { pans: 2 }),
    fact("pans", "2031-04-10", { pans: 3 }),
    fact("scale-step", "2031-01-01", { kg: 0.1 }, "dried"),
    fact("scale-step", "2031-02-01", { kg: 0.1 }, "fresh"),
    fact("dried-weighed", "2031-01-01", { when: "hot", sieved: "after-sieving" }),
    fact("dried-weighed", "2031-05-02", { when: "cooled", sieved: "after-sieving" }),
  ];
  expect(changesDeclared(facts, "dry-yield")).toEqual([
    { from: "2031-04-10", what: "pan" },
    { from: "2031-05-02", what: "weighing-moment" },
  ]);
  expect(changesDeclared(facts, "throughput")).toEqual([{ from: "2031-04-10", what: "pan" }]);
});

test("another feed or another sheet is declared when it changes, so the first one after the opening begins anew", () => {
  const opening = fact("open", "2031-01-01", {});
  const grains = fact("feed", "2031-03-10", { feed: "spent grains" });
  const sheet = fact("log-layout", "2031-06-01", { layout: "the sheet by pans" });
  expect(changesDeclared([opening, grains, sheet], "throughput")).toEqual([
    { from: "2031-03-10", what: "feed" },
    { from: "2031-06-01", what: "log-layout" },
  ]);
  const before = fact("feed", "2031-01-01", { feed: "market waste" });
  expect(changesDeclared([opening, before], "throughput")).toEqual([]);
  expect(changesDeclared([opening, before, grains], "throughput")).toEqual([{ from: "2031-03-10", what: "feed" }]);
});
