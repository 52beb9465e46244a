import { expect, test } from "vitest";
import {
  driedMassKg,
  dryBasis,
  impliedMoisture,
  impliedMoistureError,
  massLossShare,
  wetBasis,
} from "#server/measures/moisture";
import { FLOOR_MJ_PER_KG, PRACTICE, WATER } from "#server/terms/factors";

// Source: IRRI Rice Knowledge Bank, "Moisture content calculations": 1000 kg of paddy from 25 % to 14 % leaves 872 kg.
test("paddy dried from 25 to 14 percent weighs what the published example says", () => {
  expect(driedMassKg(1000, 0.25, 0.14)).toBeCloseTo(872.093, 3);
  expect(Math.round(driedMassKg(1000, 0.25, 0.14))).toBe(872);
});

// A published drying course prints 15 % wet basis as 15/85 = 0.176 dry basis.
test("wet and dry basis turn into each other", () => {
  expect(dryBasis(0.15)).toBeCloseTo(0.17647, 5);
  expect(wetBasis(0.176471)).toBeCloseTo(0.15, 6);
  for (let share = 0; share < 1; share += 0.05) expect(wetBasis(dryBasis(share))).toBeCloseTo(share, 12);
});

test("drying from 17 to 14.5 percent loses 2.92 percent of the mass, not 2.5", () => {
  expect(massLossShare(0.17, 0.145)).toBeCloseTo(0.02924, 5);
});

test.each([
  [0.7, 0.08, 0.326087],
  [0.65, 0.1, 0.3888889],
  [0.6, 0.03, 0.4124],
  [0.75, 0.12, 0.2841],
])("without losses, feed of moisture %f dried to %f yields %f", (before, after, dryYield) => {
  expect(driedMassKg(1, before, after)).toBeCloseTo(dryYield, 4);
});

test.each([
  [0.326087, 0.08],
  [0.31, 0.0322581],
  [0.29, -0.0344828],
])("a yield of %f from 30 percent dry matter implies %f moisture, below nothing unclipped", (dryYield, moisture) => {
  expect(impliedMoisture(0.3, dryYield)).toBeCloseTo(moisture, 6);
});

test("the error of the implied moisture adds dry matter and yield", () => {
  expect(impliedMoistureError(0.3, 0.03, 0.326087, 0.01)).toBeCloseTo(0.0962, 4);
  // the two slopes one by one: 1/Y and dry/Y²
  expect(impliedMoistureError(0.3, 1, 0.326087, 0)).toBeCloseTo(3.0667, 4);
  expect(impliedMoistureError(0.3, 0, 0.326087, 1)).toBeCloseTo(2.8213, 4);
});

// Source: NIST steam tables (NISTIR 5078); 100 °C after IAPWS SR1-86(1992).
test("latent heat at 25 and 50 °C is that of the steam tables, and the floor follows from them", () => {
  expect(WATER.evaporationAt25.value).toBe(2441.67);
  expect(WATER.evaporationAt50.value).toBe(2381.96);
  expect(FLOOR_MJ_PER_KG).toBeCloseTo(2.571, 3);
  // the heat of vaporisation falls nearly in a straight line: 25 and 100 °C foretell 50 °C within half a percent
  const foretold = WATER.evaporationAt25.value + (WATER.evaporationAt100.value - WATER.evaporationAt25.value) / 3;
  expect(Math.abs(foretold / WATER.evaporationAt50.value - 1)).toBeLessThan(0.005);
});

// Common practice; no source.
test("common practice: from 70 percent water in, a yield of 30 to 35 percent leaves 0 to 14 percent", () => {
  expect(impliedMoisture(0.3, 0.3)).toBeCloseTo(0, 12);
  expect(impliedMoisture(0.3, 0.35)).toBeCloseTo(0.1429, 4);
});

// Common practice; no source.
test("common practice: thirty percent left would contradict a usual yield", () => {
  const yieldWith30 = driedMassKg(1, 0.7, 0.3);
  expect(yieldWith30).toBeCloseTo(0.4286, 4);
  expect(yieldWith30).toBeGreaterThan(PRACTICE.yieldUsualHigh.value);
  for (let dryYield = PRACTICE.yieldUsualLow.value; dryYield <= PRACTICE.yieldUsualHigh.value; dryYield += 0.01) {
    expect(impliedMoisture(0.3, dryYield)).toBeLessThan(0.3);
  }
});

test("heavier feed dries to heavier product in the same share, whatever the moistures", () => {
  for (let water = 0.55; water < 0.8; water += 0.05) {
    expect(driedMassKg(1000, water, 0.08)).toBeCloseTo(1000 * driedMassKg(1, water, 0.08), 9);
    expect(impliedMoisture(1 - water, driedMassKg(1, water, 0.08))).toBeCloseTo(0.08, 12);
  }
});
