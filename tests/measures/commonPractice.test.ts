import { expect, test } from "vitest";
import { daySums } from "#server/measures/daySums";
import { siteMonth } from "#server/measures/siteMonth";
import { daysOfMonth } from "#server/terms/days";
import { MJ_PER_KWH, PRACTICE } from "#server/terms/factors";
import { SOURCES } from "#server/terms/sources";
import { batch, fact, NOW, SITE, span, valued } from "./invented";

/** One day of small loads on a 5 kW fire: preheating once, then the loads one after another. */
function dayOf(loads: number, dried: number, minutes: number) {
  const fireHours = (PRACTICE.preheatMinutes.value + loads * minutes) / 60;
  const day = batch("2031-06-02", loads * PRACTICE.smallLoadKg.value, loads * dried, {
    loads,
    minutes: loads * minutes,
  });
  return siteMonth({
    site: SITE,
    period: daysOfMonth("2031-06"),
    method: null,
    sums: daySums([day], []),
    spans: [span("2031-06-02", "2031-06-02", (5 * fireHours * MJ_PER_KWH.value) / 47.3)],
    facts: [fact("dry-matter", { share: 0.3, sd: 0.02, measured: true })],
    numbered: [],
    asKnownOn: NOW,
  });
}

test("what the trade commonly does is marked as common practice and nothing else", () => {
  for (const number of Object.values(PRACTICE)) expect(SOURCES[number.source].how).toBe("common-practice");
});

// Common practice: 15 minutes of preheating for the first load, 15 to 20 minutes a load of about 1 kg.
test("common practice: preheating nearly doubles the fuel of a single load a day, and is small at sixteen", () => {
  const minutes = (PRACTICE.smallLoadMinutesLow.value + PRACTICE.smallLoadMinutesHigh.value) / 2;
  const perLoad = (loads: number) => valued(dayOf(loads, 0.32, minutes).figures["fuel-per-fresh"]);
  const withoutPreheating = (5 * (minutes / 60) * MJ_PER_KWH.value) / PRACTICE.smallLoadKg.value;
  expect(perLoad(1) / withoutPreheating - 1).toBeCloseTo(0.857, 3);
  expect(perLoad(16) / withoutPreheating - 1).toBeCloseTo(0.054, 3);
  expect(valued(dayOf(16, 0.32, minutes).figures["loads-per-firing-day"])).toBe(16);
});

// Common practice: a yield of 25 to 35 % is normal; more hints at incomplete drying, less at lost material.
test("common practice: at 70 percent water in, a usual yield leaves less than 15 percent, a low one shows lost matter", () => {
  const usual = dayOf(10, PRACTICE.yieldUsualHigh.value, 18);
  expect(valued(usual.figures["moisture-left"])).toBeLessThan(0.15);
  expect(usual.checks.map((check) => check.code)).toEqual([]);
  const low = dayOf(10, PRACTICE.yieldUsualLow.value, 18);
  expect(low.checks.map((check) => check.code)).toEqual(["yield-below-dry-matter"]);
  expect(valued(low.massBalance.solidsLossAtLeast!)).toBeCloseTo(0.5, 9);
});

// Common practice: thirty percent left would need a yield that nobody calls usual. The mass balance is the witness.
test("common practice: thirty percent left shows as a yield of 0.43, far above the usual", () => {
  const damp = dayOf(10, 0.3 / 0.7, 18);
  expect(valued(damp.figures["moisture-left"])).toBeCloseTo(0.3, 9);
  expect(valued(damp.figures["dry-yield"])).toBeGreaterThan(PRACTICE.yieldUsualHigh.value * 1.2);
});
