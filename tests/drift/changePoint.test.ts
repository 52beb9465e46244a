import { expect, test } from "vitest";
import { changePoint, SAME_PLACE } from "#server/drift/changePoint";
import type { Series } from "#server/drift/series";
import nile from "../files/reference/drift/changePoint.json";
import { seeded } from "../statistics/seeded";

const PLAIN = { omega: 0, rho: 0 };

function series(values: readonly number[], mass: readonly number[] = values.map(() => 1)): Series {
  return { day: Int32Array.from(values, (_, i) => i), value: Float64Array.from(values), mass: Float64Array.from(mass) };
}

test("the Nile's level falls after 1898, and the set of years is the published one", () => {
  const found = changePoint(series(nile.values), PLAIN)!;
  expect(found.place).toBe(nile.before);
  expect(found.before).toBeCloseTo(nile.meanBefore, 6);
  expect(found.before + found.effect).toBeCloseTo(nile.meanAfter, 6);
  expect(found.ratio).toBeCloseTo(nile.ratio, 5);
  // the set is told by the last year of the old level
  const years = [found.from, found.to].map((place) => nile.from + place - 1);
  expect(years).toEqual([nile.set[0], nile.set.at(-1)]);
  expect(found.determined).toBe(true);
});

test("the critical value is the one that the larger of two exponential values exceeds in 5 % of cases", () => {
  expect(SAME_PLACE).toBeCloseTo(7.352, 3);
  expect((1 - Math.exp(-SAME_PLACE / 2)) ** 2).toBeCloseTo(0.95, 12);
});

test("the step is a difference of weighted means where days are independent", () => {
  const found = changePoint(series([1, 3, 2, 2, 10, 12, 11, 11], [1, 1, 2, 2, 1, 3, 1, 1]), PLAIN)!;
  expect(found.place).toBe(4);
  expect(found.before).toBeCloseTo((1 + 3 + 4 + 4) / 6, 12);
  expect(found.before + found.effect).toBeCloseTo((10 + 36 + 11 + 11) / 6, 12);
});

test("days that never differ, or too few, have no change", () => {
  expect(changePoint(series(Array(20).fill(3)), PLAIN)).toBeNull();
  expect(changePoint(series([1, 2, 3, 4]), PLAIN)).toBeNull();
});

test("two levels without spread leave no doubt about the date", () => {
  expect(changePoint(series([1, 1, 1, 1, 2, 2, 2]), PLAIN)).toMatchObject({ place: 4, from: 4, to: 4 });
});

test("without a change the date is often left open; with one the set holds the day", () => {
  const chance = seeded(8);
  let held = 0;
  let open = 0;
  const pooled = { omega: 0.6, rho: 0.4 };
  for (let run = 0; run < 300; run++) {
    const values: number[] = [];
    let lasting = chance.normal();
    for (let i = 0; i < 50; i++) {
      lasting = 0.4 * lasting + Math.sqrt(1 - 0.16) * chance.normal();
      values.push(Math.sqrt(0.6) * lasting + Math.sqrt(0.4) * chance.normal());
    }
    if (!changePoint(series(values), pooled)!.determined) open++;
    const changed = changePoint(series(values.map((value, i) => (i < 35 ? value : value + 1.5))), pooled)!;
    if (changed.from <= 35 && changed.to >= 35) held++;
  }
  expect(held / 300).toBeGreaterThan(0.93);
  expect(open / 300).toBeGreaterThan(0.3);
});
