import { expect, test } from "vitest";
import { cylinderSpans } from "#server/measures/cylinderSpans";
import { daySums } from "#server/measures/daySums";
import { siteMonth } from "#server/measures/siteMonth";
import type { Batch } from "#server/terms/batch";
import { daysOfMonth } from "#server/terms/days";
import { batch, fact, NOW, quantity, SITE, valued } from "./invented";

/**
 * An invented month at Lantern Hill: loads of 1 kg, written as a tally a day, on Mondays and Tuesdays of June 2031.
 * 18 loads of 18 minutes each day. The 10th has no dried weight, the 24th was not logged, the dried weight of the 30th
 * is read on the morning of 1 July. A 13 kg cylinder was put on on the 2nd, another on the 17th, a third on 1 July.
 */
const tally = (date: string, dried: number | null, driedToCome = false): Batch =>
  batch(`2031-06-${date}`, 18, dried, { grain: "site-day", loads: 18, minutes: 324, driedToCome });
const atMonthsEnd = [
  tally("02", 5.9),
  tally("03", 6.0),
  tally("09", 5.8),
  tally("10", null),
  tally("16", 6.1),
  tally("17", 5.9),
  tally("23", 5.7),
  tally("30", null, true),
];
const nextMorning = atMonthsEnd.map((one) =>
  one.driedToCome ? { ...one, dried: quantity(6.2), driedToCome: false } : one,
);

const facts = [
  fact("schedule", { weekdays: [1, 2], perDay: 18, of: "days" }),
  fact("pans", { pans: 1 }),
  fact("hours", { perDay: 8 }),
  fact("cylinder", { netKg: 13 }, { key: "lpg" }),
  fact("dry-matter", { share: 0.32, sd: 0.03, measured: false }),
  fact("plausible", { highestFreshKg: 1.5, lowestYield: 0.2, highestYield: 0.4 }),
];
const changes = ["2031-06-02", "2031-06-17", "2031-07-01"].map((day) => {
  return { site: SITE, day, fuel: "lpg", kind: "change", count: 1, beforeKg: null, afterKg: null } as const;
});

function month(name: string, batches: readonly Batch[], putOn = 2) {
  const spans = cylinderSpans(changes.slice(0, putOn), facts);
  const sums = daySums(batches, facts);
  return siteMonth({
    site: SITE,
    period: daysOfMonth(name),
    method: null,
    sums,
    spans,
    facts,
    numbered: [],
    asKnownOn: NOW,
  });
}

test("Lantern Hill's June closes with one weight to come and rests on 6 of 9 days", () => {
  const { figures, completeness } = month("2031-06", atMonthsEnd);
  expect(valued(figures["dry-yield"])).toBeCloseTo(35.4 / 108, 12);
  expect(figures["dry-yield"].restsOn).toEqual({ used: 6, here: 8, owed: 9, of: "days" });
  expect(completeness).toMatchObject({ here: 8, missing: 1, excess: 0, toCome: 1 });
});

test("the weight read on 1 July belongs to 30 June, the day of roasting", () => {
  const { figures, completeness } = month("2031-06", nextMorning);
  expect(valued(figures["dry-yield"])).toBeCloseTo(41.6 / 126, 12);
  expect(figures["dry-yield"].restsOn).toMatchObject({ used: 7, here: 8, owed: 9 });
  expect(valued(figures["driven-off"])).toBeCloseTo(84.4, 9);
  expect(completeness.toCome).toBe(0);
  expect(month("2031-07", nextMorning).figures["dry-yield"]).toMatchObject({ known: false, why: "nothing-logged" });
});

test("what the two missing days could have changed: 18 loads each of at most 1.5 kg", () => {
  const figure = month("2031-06", nextMorning).figures["dry-yield"];
  if (!figure.known || !figure.missingRange) throw new Error("not bounded");
  expect(figure.missingRange.low).toBeCloseTo((41.6 + 54 * 0.2) / 180, 12);
  expect(figure.missingRange.high).toBeCloseTo((41.6 + 54 * 0.4) / 180, 12);
});

test("Lantern Hill's pan was on the fire 0.675 of its hours, at 3.33 kg per pan-hour", () => {
  const { figures } = month("2031-06", nextMorning);
  expect(valued(figures["roasting-share"])).toBeCloseTo(324 / 480, 12);
  expect(valued(figures["fresh-per-pan-hour"])).toBeCloseTo(18 / 5.4, 12);
  expect(valued(figures["fresh-per-day"])).toBe(18);
});

test("June's fuel is the cylinder that came off in June, over the days it was on", () => {
  const { figures, fuel, completeness } = month("2031-06", nextMorning);
  // 2 to 17 June: 108 kg fresh, of them 90 kg with both weights -> 29.7 kg; 13 kg of gas
  const heat = 13 * 47.3;
  expect(valued(figures["fuel-per-driven-off"])).toBeCloseTo((heat * 90) / 108 / 60.3, 9);
  expect(figures["fuel-per-driven-off"].restsOn).toEqual({ used: 1, here: 2, owed: null, of: "fuel windows" });
  expect(valued(figures["fuel-per-firing-day"])).toBeCloseTo(heat / 6, 9);
  expect(valued(figures["loads-per-firing-day"])).toBe(18);
  expect(fuel.pending.map((span) => span.from)).toEqual(["2031-06-18"]);
  expect(completeness.usable.fuel).toBe(5);
});

test("the interval of a changed cylinder is what may have gone back unburnt", () => {
  const figure = month("2031-06", nextMorning).figures["fuel-per-dried"];
  if (!figure.known || !figure.interval) throw new Error("unknown");
  const perKgGas = figure.value / 13;
  expect(figure.interval.high).toBe(figure.value);
  expect(figure.value - figure.interval.low).toBeCloseTo(((1.959964 * 0.5) / Math.sqrt(6)) * perKgGas, 6);
});

test("the second cylinder counts in July, with the June days it burned on", () => {
  const july = [...nextMorning, batch("2031-07-01", 18, 6.0, { grain: "site-day", loads: 18, minutes: 324 })];
  const { figures } = month("2031-07", july, 3);
  // 23 and 30 June and 1 July: 54 kg -> 5.7 + 6.2 + 6.0 = 17.9 kg
  expect(valued(figures["fuel-per-driven-off"])).toBeCloseTo((13 * 47.3) / 36.1, 9);
  expect(valued(figures.heat)).toBeCloseTo(13 * 47.3, 9);
  expect(valued(month("2031-06", july, 3).figures.heat)).toBeCloseTo(13 * 47.3, 9);
});

test("an assumed dry matter draws a band around what may be left, and raises no question", () => {
  const { massBalance, checks } = month("2031-06", nextMorning);
  const dryYield = 41.6 / 126;
  expect(massBalance.dryMatter).toMatchObject({ basis: "assumed", share: expect.closeTo(0.32, 12) });
  expect(massBalance.moistureBand?.low).toBeCloseTo(1 - 0.38 / dryYield, 9);
  expect(massBalance.moistureBand?.high).toBeCloseTo(1 - 0.26 / dryYield, 9);
  expect(checks).toEqual([]);
});
