import { expect, test } from "vitest";
import { normalInterval, tInterval } from "#server/statistics/interval";
import { normalQuantile, tQuantile } from "#server/statistics/quantile";

// Student's t table as printed in any handbook of statistics; values to four places.
test.each([
  [1, 12.7062],
  [4, 2.7764],
  [10, 2.2281],
  [30, 2.0423],
  [120, 1.9799],
])("the 97.5 percent point of Student's t with %d degrees of freedom is %f", (degrees, printed) => {
  expect(tQuantile(0.975, degrees)).toBeCloseTo(printed, 4);
  expect(tQuantile(0.025, degrees)).toBeCloseTo(-printed, 4);
});

test("the 97.5 percent point of the normal distribution is 1.959964", () => {
  expect(normalQuantile(0.975)).toBeCloseTo(1.959964, 6);
});

test("an interval reaches as far as the quantile times the standard error, to both sides", () => {
  const { low, high, level } = tInterval(0.3, 0.01, 4);
  expect([low, high, level]).toEqual([expect.closeTo(0.272236, 6), expect.closeTo(0.327764, 6), 0.95]);
  expect(normalInterval(0, 1).high).toBeCloseTo(1.959964, 6);
});

test("more days make a narrower interval, and never narrower than the normal one", () => {
  let width = Number.POSITIVE_INFINITY;
  for (let degrees = 1; degrees <= 200; degrees++) {
    const { low, high } = tInterval(0, 1, degrees);
    expect(high - low).toBeLessThan(width);
    width = high - low;
  }
  const normal = normalInterval(0, 1);
  expect(width).toBeGreaterThan(normal.high - normal.low);
});
