import { expect, test } from "vitest";
import { overTime, type PastInput, recordOverTime, stepFor, stepsOf } from "#server/measures/overTime";
import { siteMonth } from "#server/measures/siteMonth";
import { daysBetween, plusDays } from "#server/terms/days";
import type { DaySum, Summed } from "#server/terms/sums";
import { fact, NOW, SITE, span, valued } from "./invented";

/** May 2031 begins on a Thursday. */
const MAY = { from: "2031-05-01", to: "2031-05-31" };
const PLAN = fact("schedule", { weekdays: [1, 2, 3, 4, 5, 6], perDay: 1, of: "batches" });

function sum(day: string, measure: Summed, num: number, den: number, method: DaySum["method"] = "sand-pan"): DaySum {
  return { site: SITE, day, method, measure, batches: 1, loads: 1, num, den };
}
const load = (day: string, fresh: number, dried: number, method?: DaySum["method"]) => [
  sum(day, "here", 1, 1, method),
  sum(day, "fresh", fresh, 1, method),
  sum(day, "dry-yield", dried, fresh, method),
  sum(day, "pan-time", fresh, 90, method),
];

function past(said: Partial<PastInput>): PastInput {
  return { period: MAY, step: "week", sums: [], spans: [], facts: [PLAN], numbered: [], asKnownOn: NOW, ...said };
}

test("steps follow each other without a gap, weeks from Monday, cut to the period", () => {
  expect(stepsOf(MAY, "week").map(({ from, to }) => `${from.slice(8)}–${to.slice(8)}`)).toEqual([
    "01–04",
    "05–11",
    "12–18",
    "19–25",
    "26–31",
  ]);
  for (const step of ["day", "week", "month"] as const)
    for (let days = 0; days < 80; days++) {
      const period = { from: "2031-01-15", to: plusDays("2031-01-15", days) };
      const all = stepsOf(period, step).flatMap(({ from, to }) => daysBetween(from, to));
      expect(all, `${step} ${days}`).toEqual(daysBetween(period.from, period.to));
    }
});

test("whatever is asked, a page gets no more than some sixty points", () => {
  const to = (days: number) => ({ from: "2031-01-01", to: plusDays("2031-01-01", days - 1) });
  expect([31, 62, 63, 366, 434, 435, 1826].map((days) => stepFor(to(days)))).toEqual([
    "day",
    "day",
    "week",
    "week",
    "week",
    "month",
    "month",
  ]);
});

test("a week's yield is its pooled one, by hand: 3 of 10 and 11 of 30 kg are 14 / 40; an empty week is a gap", () => {
  const sums = [...load("2031-05-05", 10, 3), ...load("2031-05-07", 30, 11)];
  const [told] = overTime(past({ sums }));
  expect(told?.method).toBe("sand-pan");
  const [first, second] = told?.dryYield ?? [];
  expect(first).toMatchObject({ from: "2031-05-01", figure: { known: false, why: "nothing-logged" } });
  expect(second?.figure).toMatchObject({ value: 14 / 40, restsOn: { used: 2, owed: 6 } });
  expect(valued(told!.freshPerPanHour[1]!.figure)).toBeCloseTo(40 / 3, 12);
});

test("the record counts what can be used of what was owed, and has no point where nothing was owed", () => {
  const points = recordOverTime(past({ step: "day", sums: load("2031-05-02", 10, 3) }));
  const of = (day: string) => points.find(({ from }) => from === day)?.figure;
  expect(of("2031-05-01")).toMatchObject({ value: 0 });
  expect(of("2031-05-02")).toMatchObject({ value: 1 });
  expect(of("2031-05-04")).toBeUndefined();
});

test("a method has points only where it was used, and none where another was", () => {
  const sums = [...load("2031-05-05", 10, 3), ...load("2031-05-19", 10, 3, "hot-air-cabinet")];
  const told = overTime(past({ sums }));
  expect(told.map(({ method, dryYield }) => [method, dryYield.map(({ from }) => from)])).toEqual([
    ["sand-pan", ["2031-05-05"]],
    ["hot-air-cabinet", ["2031-05-19"]],
  ]);
});

test("a site that was not open, and one that logged nothing, are told apart", () => {
  const opens = fact("open", {}, { from: "2031-05-12" });
  const [told] = overTime(past({ facts: [PLAN, opens] }));
  expect(told?.method).toBeNull();
  expect(told?.dryYield.map(({ from }) => from)).toEqual(["2031-05-12", "2031-05-19", "2031-05-26"]);
});

test("fuel windows that end in a week are told together and reach back over days without loads", () => {
  const sums = ["2031-05-05", "2031-05-06", "2031-05-12"].flatMap((day) => load(day, 10, 3));
  const spans = ["2031-05-05", "2031-05-06", "2031-05-12"].map((day) => span(day, day, 1));
  const [told] = overTime(past({ sums, spans }));
  expect(told?.fuelPerDrivenOff.map(({ from, to }) => [from, to])).toEqual([
    ["2031-05-05", "2031-05-06"],
    ["2031-05-07", "2031-05-12"],
  ]);
  const [first, second] = told?.fuelPerDrivenOff ?? [];
  expect(valued(first!.figure)).toBeCloseTo(valued(second!.figure), 12);
  expect(overTime(past({ sums })).flatMap(({ fuelPerDrivenOff }) => fuelPerDrivenOff)).toEqual([]);
});

test("a step of one month says what the month's own figures say", () => {
  const sums = daysBetween("2031-05-05", "2031-05-24").flatMap((day, i) => load(day, 10 + (i % 3), 3 + (i % 2) / 4));
  const spans = daysBetween("2031-05-05", "2031-05-24").map((day) => span(day, day, 1.1));
  const input = past({ step: "month", sums, spans });
  const [told] = overTime(input);
  const month = siteMonth({ ...input, site: SITE, method: "sand-pan" });
  expect(told?.dryYield[0]?.figure).toEqual(month.figures["dry-yield"]);
  expect(told?.freshPerPanHour[0]?.figure).toEqual(month.figures["fresh-per-pan-hour"]);
  expect(told?.fuelPerDrivenOff[0]?.figure).toEqual(month.figures["fuel-per-driven-off"]);
  expect(recordOverTime(input)[0]?.figure).toEqual(month.figures["record-usable"]);
});
