import fc from "fast-check";
import { expect, test } from "vitest";
import { middleHalf, quantile } from "#server/compare/middleHalf";

test("quartiles lie on straight lines between the values, as those of R do by default", () => {
  expect(middleHalf([0.3, 0.32, 0.34, 0.4])).toEqual({
    low: expect.closeTo(0.315, 12),
    high: expect.closeTo(0.355, 12),
    of: 4,
  });
  // R, ?quantile: quantile(c(1, 2, 3, 4, 5), c(0.1, 0.25, 0.9)) gives 1.4, 2, 4.6
  expect([0.1, 0.25, 0.9].map((share) => quantile([5, 3, 1, 4, 2], share))).toEqual([
    expect.closeTo(1.4, 12),
    2,
    expect.closeTo(4.6, 12),
  ]);
});

test("three sites have no middle half, and nothing has no quantile", () => {
  expect(middleHalf([0.3, 0.32, 0.34])).toBeNull();
  expect(() => quantile([], 0.5)).toThrow("no quantile");
});

test("the order of sites makes no difference, and about half of them lie inside", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 40 }), (values) => {
      const found = middleHalf(values)!;
      expect(middleHalf([...values].reverse())).toEqual(found);
      const inside = values.filter((value) => value >= found.low && value <= found.high).length;
      expect(inside).toBeGreaterThanOrEqual(Math.floor(values.length / 2) - 1);
    }),
  );
});
