import { expect, test } from "vitest";
import { chanceOf } from "#seed/chance";

test("chance of one seed and name is the same every time, and another name or seed is another run", () => {
  const run = (seed: number, name: string) => Array.from({ length: 20 }, chanceOf(seed, name).uniform);
  expect(run(3, "Old Jetty")).toEqual(run(3, "Old Jetty"));
  expect(run(3, "Old Jetty")).not.toEqual(run(4, "Old Jetty"));
  expect(run(3, "Old Jetty")).not.toEqual(run(3, "Salt Lane"));
});

test("chance is even between 0 and 1, and its normal numbers have mean 0 and spread 1", () => {
  for (let seed = 1; seed <= 20; seed++) {
    const chance = chanceOf(seed, "even");
    const even = Array.from({ length: 20_000 }, chance.uniform);
    const normal = Array.from({ length: 20_000 }, chance.normal);
    expect(Math.min(...even), `seed ${seed}`).toBeGreaterThanOrEqual(0);
    expect(Math.max(...even), `seed ${seed}`).toBeLessThan(1);
    expect(Math.abs(mean(even) - 0.5), `seed ${seed}`).toBeLessThan(0.01);
    expect(Math.abs(mean(normal)), `seed ${seed}`).toBeLessThan(0.035);
    expect(Math.abs(mean(normal.map((one) => one * one)) - 1), `seed ${seed}`).toBeLessThan(0.05);
  }
});

test("names that differ in one letter give runs that have nothing to do with each other", () => {
  const a = Array.from({ length: 5000 }, chanceOf(9, "PG 2031-01 written").normal);
  const b = Array.from({ length: 5000 }, chanceOf(9, "PG 2031-02 written").normal);
  expect(Math.abs(mean(a.map((one, at) => one * (b[at] ?? 0))))).toBeLessThan(0.06);
});

test("whole numbers and picks reach both ends and nothing beyond", () => {
  const chance = chanceOf(5, "ends");
  expect(new Set(Array.from({ length: 500 }, () => chance.whole(-1, 2)))).toEqual(new Set([-1, 0, 1, 2]));
  expect(new Set(Array.from({ length: 500 }, () => chance.pick(["a", "b", "c"])))).toEqual(new Set(["a", "b", "c"]));
});

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
