import { expect, test } from "vitest";
import type { Chance } from "#seed/chance";
import { chanceOf } from "#seed/chance";
import { lastingLuck } from "#seed/process/luck";
import { oneLoad } from "#seed/process/oneLoad";
import type { Nature } from "#seed/site";
import { oldJetty } from "#seed/sites/oldJetty";
import type { Effects } from "#seed/stories";

const usual: Effects = { freshMoisture: 0, driedMoisture: 0, minutes: 1, fuel: 1, tareKg: 0, wetness: 0 };
const middle = { feed: 0, pace: 0, fire: 0 };
const noChance: Chance = {
  uniform: () => 0.5,
  normal: () => 0,
  happens: () => false,
  whole: (from) => from,
  pick: ([first]) => first,
};
const nature: Nature = { ...oldJetty.nature, loadKg: 10, freshMoisture: 0.7, driedMoisture: 0.08, loss: 0 };

test("a load loses water and keeps its dry matter", () => {
  // 10 kg with 30 % dry matter are 3 kg, which at 8 % moisture weigh 3 / 0.92
  expect(oneLoad(nature, usual, middle, noChance).driedKg).toBeCloseTo(3 / 0.92, 10);
});

test("1000 kg at 25 % moisture dried to 14 % weigh 872 kg", () => {
  // Source: IRRI Rice Knowledge Bank, "Moisture content calculations", worked example
  const paddy = { ...nature, loadKg: 1000, freshMoisture: 0.25, driedMoisture: 0.14 };
  expect(oneLoad(paddy, usual, middle, noChance).driedKg).toBeCloseTo(872.093, 3);
});

test("a tare adds its weight to both weighings and nothing to the fuel", () => {
  const without = oneLoad(nature, usual, middle, noChance);
  const withTare = oneLoad(nature, { ...usual, tareKg: 1 }, middle, noChance);
  expect(withTare).toEqual({ ...without, freshKg: 11, driedKg: without.driedKg + 1 });
});

test("wetter feed yields less, a wetter product more", () => {
  const yieldOf = (effects: Partial<Effects>) => {
    const { freshKg, driedKg } = oneLoad(nature, { ...usual, ...effects }, middle, noChance);
    return driedKg / freshKg;
  };
  expect(yieldOf({ freshMoisture: 0.02 })).toBeCloseTo(0.28 / 0.92, 10);
  expect(yieldOf({ driedMoisture: 0.09 })).toBeCloseTo(0.3 / 0.83, 10);
});

test("fuel is at least the heat that drives the water off", () => {
  for (let seed = 1; seed <= 200; seed++) {
    const chance = chanceOf(seed, "floor");
    const load = oneLoad(
      nature,
      usual,
      { feed: chance.normal(), pace: chance.normal(), fire: chance.normal() },
      chance,
    );
    // 2.257 MJ per kg at 100 °C alone: IAPWS saturation table, beside what warming up takes
    expect(load.fuelMj, `seed ${seed}`).toBeGreaterThan((load.freshKg - load.driedKg) * 2.257);
  }
});

test("luck is correlated 0.3 from one day to the next and has spread 1", () => {
  const next = lastingLuck(chanceOf(11, "luck"));
  const days = Array.from({ length: 40_000 }, next);
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  expect(mean(days.map((day) => day * day))).toBeCloseTo(1, 1);
  expect(Math.abs(mean(days.slice(1).map((day, at) => day * (days[at] ?? 0))) - 0.3)).toBeLessThan(0.02);
});
