import { expect, test } from "vitest";
import { daySums } from "#server/measures/daySums";
import { freshPerDay, freshPerPanHour, minutesPerKg, roastingShare } from "#server/measures/throughput";
import { daysBetween } from "#server/terms/days";
import { PRACTICE } from "#server/terms/factors";
import { ABOUT, batch, fact, valued } from "./invented";

const loads = daySums(
  [
    batch("2031-06-02", 10, 3, { minutes: 95 }),
    batch("2031-06-02", 10, 3, { minutes: 90 }),
    batch("2031-06-03", 12, 4),
    batch("2031-06-04", null, 4, { minutes: 60 }),
  ],
  [],
);
const pans = fact("pans", { pans: 2 });
const hours = fact("hours", { perDay: 8 });

test("kg per operating day leaves out a day on which nothing was weighed", () => {
  expect(freshPerDay(loads, ABOUT)).toMatchObject({ value: 16, unit: "kg/day", restsOn: { used: 3, here: 4 } });
});

test("kg per pan-hour and minutes per kg count the loads with weight and minutes", () => {
  expect(valued(freshPerPanHour(loads, ABOUT))).toBeCloseTo(20 / (185 / 60), 12);
  expect(valued(minutesPerKg(loads, ABOUT))).toBeCloseTo(9.25, 12);
  expect(minutesPerKg(loads, ABOUT)).toMatchObject({ unit: "minutes/kg", restsOn: { used: 2, here: 4 } });
});

test("roasting share is pan-minutes over the declared pan hours of the days with minutes", () => {
  expect(valued(roastingShare(loads, [pans, hours], ABOUT))).toBeCloseTo((185 + 60) / (2 * 960), 12);
});

test("roasting share follows the pans in force on each day, and is not clipped above one", () => {
  const one = fact("pans", { pans: 1 }, { from: "2031-06-04", at: 2 });
  expect(valued(roastingShare(loads, [pans, one, hours], ABOUT))).toBeCloseTo(245 / (960 + 480), 12);
  const short = [fact("pans", { pans: 1 }), fact("hours", { perDay: 1 })];
  expect(valued(roastingShare(loads, short, ABOUT))).toBeCloseTo(245 / 120, 12);
});

test.each([
  ["pans", [hours]],
  ["hours", [pans]],
  ["pans on one of the days", [fact("pans", { pans: 2 }, { to: "2031-06-03" }), hours]],
] as const)("roasting share is unknown without declared %s", (_, facts) => {
  expect(roastingShare(loads, facts, ABOUT)).toMatchObject({ known: false, why: "pans-or-hours-not-declared" });
});

test("throughput is unknown in words without minutes or weights", () => {
  const bare = daySums([batch("2031-06-02", null, 3)], []);
  expect(freshPerPanHour(bare, ABOUT)).toMatchObject({ known: false, why: "no-batch-with-minutes" });
  expect(minutesPerKg(bare, ABOUT)).toMatchObject({ known: false, why: "no-batch-with-minutes" });
  expect(roastingShare(bare, [pans, hours], ABOUT)).toMatchObject({ known: false, why: "no-batch-with-minutes" });
  expect(freshPerDay(bare, ABOUT)).toMatchObject({ known: false, why: "no-fresh-weight" });
});

test("kg per day has an interval by day from five days on", () => {
  const kg = [8, 12, 10, 9, 11];
  const five = daysBetween("2031-06-02", "2031-06-06").map((day, i) => batch(day, kg[i]!, 3));
  const figure = freshPerDay(daySums(five, []), ABOUT);
  if (!figure.known || !figure.interval) throw new Error("unknown");
  // mean 10, sd √2.5, se √(2.5/5); t(4) 2.776445
  expect(figure.interval.high - 10).toBeCloseTo(2.776445 * Math.sqrt(0.5), 6);
  expect(freshPerDay(daySums(five.slice(1), []), ABOUT)).toMatchObject({ interval: null });
});

// Common practice; no source.
test("common practice: a pan of small loads dries about 3 to 4 kg an hour of fire", () => {
  const { smallLoadKg, smallLoadMinutesLow, smallLoadMinutesHigh } = PRACTICE;
  const rate = (minutes: number) =>
    valued(freshPerPanHour(daySums([batch("2031-06-02", smallLoadKg.value, 0.3, { minutes })], []), ABOUT));
  expect(rate(smallLoadMinutesHigh.value)).toBeCloseTo(3, 12);
  expect(rate(smallLoadMinutesLow.value)).toBeCloseTo(4, 12);
});

test("kg per pan-hour and minutes per kg say the same, whatever the loads", () => {
  for (let seed = 1; seed <= 100; seed++) {
    const rows = daysBetween("2031-06-02", "2031-06-08").map((day, i) =>
      batch(day, 1 + ((seed * (i + 2)) % 11), null, { minutes: 20 + ((seed * (i + 5)) % 80) }),
    );
    const sums = daySums(rows, []);
    const product = valued(freshPerPanHour(sums, ABOUT)) * valued(minutesPerKg(sums, ABOUT));
    expect(product, `seed ${seed}`).toBeCloseTo(60, 9);
  }
});
