import { expect, test } from "vitest";
import { clumpingOf, recordInterval } from "#server/drift/recordInterval";
import { seeded } from "../statistics/seeded";

test("days that are missing whole vary as days do, single loads as loads do", () => {
  const whole = [2, 0, 0, 2].map((missing) => ({ owed: 2, missing }));
  expect(clumpingOf(whole)).toBeCloseTo((4 / 3) * (4 / (8 / 4)), 12);
  expect(clumpingOf([1, 1, 1, 1].map((missing) => ({ owed: 2, missing })))).toBe(1);
  expect(clumpingOf([{ owed: 2, missing: 1 }])).toBe(1);
  expect(clumpingOf([0, 0].map((missing) => ({ owed: 2, missing })))).toBe(1);
});

test("half of fifty: the plain interval of Anscombe's scale, which clumping widens by its root", () => {
  const { low, high } = recordInterval({ owed: 50, missing: 25 }, 1, 0);
  expect(low).toBeCloseTo(0.364, 2);
  expect(high).toBeCloseTo(0.636, 2);
  const wide = recordInterval({ owed: 50, missing: 25 }, 4, 0);
  expect(wide.high - wide.low).toBeGreaterThan(1.9 * (high - low));
  expect(recordInterval({ owed: 50, missing: 50 }, 4, 25)).toMatchObject({ high: 1 });
  expect(recordInterval({ owed: 50, missing: 0 }, 4, 25)).toMatchObject({ low: 0 });
});

test.each([
  { said: "single loads", whole: 0 },
  { said: "half of it in whole days", whole: 0.5 },
  { said: "whole days alone", whole: 1 },
])("months of which $said go missing are held by their interval in about 95 % of cases", ({ whole }) => {
  const chance = seeded(5);
  const [days, each, p] = [25, 3, 0.3];
  const months = 4000;
  let held = 0;
  for (let run = 0; run < months; run++) {
    const all = Array.from({ length: days }, () => {
      const none = chance.uniform() < p * whole;
      const share = (p - p * whole) / (1 - p * whole);
      const missing = none ? each : [0, 0, 0].filter(() => chance.uniform() < share).length;
      return { owed: each, missing };
    });
    const missing = all.reduce((sum, one) => sum + one.missing, 0);
    const { low, high } = recordInterval({ owed: days * each, missing }, clumpingOf(all), days);
    if (low <= p && p <= high) held++;
  }
  expect(held / months).toBeGreaterThan(0.93);
  expect(held / months).toBeLessThan(0.985);
});
