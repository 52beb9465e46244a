import { expect, test } from "vitest";
import { daySums } from "#server/measures/daySums";
import { fieldCompleteness } from "#server/measures/fieldCompleteness";
import { siteMonth } from "#server/measures/siteMonth";
import type { Batch } from "#server/terms/batch";
import { daysOfMonth } from "#server/terms/days";
import { batch, fact, NOW, SITE, span, valued } from "./invented";

/**
 * A small month worked out by hand: six loads over three days, one cylinder weighed before the first and after the last.
 * Load 5 has no dried weight; load 6 says "3300 g" and counts once its unit is accepted.
 */
const load = (date: number, number: string, fresh: number, dried: number | null, minutes: number): Batch =>
  batch(`2025-06-0${date}`, fresh, dried, { number, minutes });
const loads = [
  load(2, "1", 10, 3.3, 95),
  load(2, "2", 10, 3.2, 90),
  load(3, "3", 12, 3.9, 110),
  load(3, "4", 8, 2.8, 75),
  load(4, "5", 10, null, 90),
  load(4, "6", 10, 3.3, 92),
];
const unread = loads.map((one) => (one.number === "6" ? { ...one, dried: null } : one));
const dryMatter = fact("dry-matter", { share: 0.3, sd: 0.03, measured: true }, { from: "2025-01-01" });

function june(batches: readonly Batch[]) {
  return siteMonth({
    site: SITE,
    period: daysOfMonth("2025-06"),
    method: null,
    sums: daySums(batches, []),
    spans: [span("2025-06-02", "2025-06-04", 4.95)],
    facts: [dryMatter],
    numbered: [],
    asKnownOn: NOW,
  });
}

test("the golden month's dry yield is 0.3300 before and after the unit is accepted, and not the mean 0.33125", () => {
  const before = june(unread).figures["dry-yield"];
  expect(valued(before)).toBeCloseTo(13.2 / 40, 12);
  expect(before.restsOn).toMatchObject({ used: 4, here: 6 });
  const after = june(loads).figures["dry-yield"];
  expect(valued(after)).toBeCloseTo(16.5 / 50, 12);
  expect(after.restsOn).toMatchObject({ used: 5, here: 6, owed: null, of: "batches" });
  expect((0.33 + 0.32 + 0.325 + 0.35) / 4).toBeCloseTo(0.33125, 12);
});

test("the golden month's fuel is shared out by fresh mass over the same loads", () => {
  const { figures } = june(loads);
  expect(valued(figures["fuel-per-fresh"])).toBeCloseTo(3.90225, 9);
  expect(valued(figures["fuel-per-dried"])).toBeCloseTo(11.825, 9);
  expect(valued(figures["fuel-per-driven-off"])).toBeCloseTo(5.82425, 5);
  expect(valued(figures["fuel-per-dried"])).not.toBeCloseTo((4.95 / 16.5) * 47.3, 1);
  expect(valued(figures["fuel-per-firing-day"])).toBeCloseTo((4.95 * 47.3) / 3, 9);
  expect(valued(figures["loads-per-firing-day"])).toBe(2);
});

test("the golden month's fossil CO2 is 14.7739 kg, 0.746158 kg per kg dried", () => {
  const { figures } = june(loads);
  expect(valued(figures["fossil-co2"])).toBeCloseTo(14.7739, 4);
  const perMj = valued(figures["fossil-co2"]) / valued(figures.heat);
  expect(valued(figures["fuel-per-dried"]) * perMj).toBeCloseTo(0.746158, 6);
  expect(valued(figures["biogenic-co2"])).toBe(0);
});

test("the golden month's throughput is 6.5217 kg per pan-hour and its fire 7.069 kW", () => {
  const { figures, fuel } = june(loads);
  expect(valued(figures["fresh-per-pan-hour"])).toBeCloseTo(6.5217, 4);
  expect(valued(figures["minutes-per-kg"])).toBeCloseTo(552 / 60, 12);
  expect(valued(figures["fresh-per-day"])).toBe(20);
  expect(fuel.firepowerKw).toBeCloseTo(7.069, 3);
});

test("the golden month's weights are 11 of 12 cells and its implied moisture 0.0909", () => {
  expect(fieldCompleteness(loads, ["fresh", "dried"], 0)).toMatchObject({ present: 11, required: 12 });
  expect(fieldCompleteness(loads, ["fresh", "dried"], 0).share).toBeCloseTo(0.917, 3);
  const { massBalance, checks } = june(loads);
  expect(massBalance.masses).toEqual({ freshKg: 50, driedKg: 16.5, drivenOffKg: 33.5 });
  expect(valued(massBalance.impliedMoisture)).toBeCloseTo(0.0909, 4);
  expect(massBalance.solidsLossAtLeast).toBeNull();
  expect(checks).toEqual([]);
});
