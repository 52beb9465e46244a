import { expect, test } from "vitest";
import { lagOne, mean, median, medianDeviation, standardDeviation } from "#server/statistics/moments";
import reference from "../files/reference/drift/univariate.json";

const alternating = (middle: number, low: number, high: number) => [
  middle,
  ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
];
const generated: Record<string, number[]> = {
  NumAcc1: [10000001, 10000003, 10000002],
  NumAcc2: alternating(1.2, 1.1, 1.3),
  NumAcc3: alternating(1000000.2, 1000000.1, 1000000.3),
  NumAcc4: alternating(10000000.2, 10000000.1, 10000000.3),
};
// the numbers themselves lose digits when they are written in binary: one part in 1e9 and 1e7 of the deviation
const digits: Record<string, number> = { NumAcc3: 1e-9, NumAcc4: 1e-7 };

test.each([...reference.sets, ...reference.generated.map((set) => ({ ...set, values: generated[set.name]! }))])(
  "$name has its certified mean, deviation and lag-one correlation",
  ({ name, values, mean: middle, standardDeviation: deviation, lagOne: lag }) => {
    expect(Math.abs(mean(values) / middle - 1)).toBeLessThan(1e-15);
    expect(Math.abs(standardDeviation(values)! / deviation - 1)).toBeLessThan(digits[name] ?? 5e-13);
    expect(Math.abs(lagOne(values)! - lag)).toBeLessThan(digits[name] ?? 1e-10);
  },
);

test("the median stands in the middle, and its deviation beside it", () => {
  expect(median([5, 1, 9])).toBe(5);
  expect(median([5, 1, 9, 6])).toBe(5.5);
  expect(medianDeviation([1, 2, 3, 4, 100])).toBe(1);
  expect(median([])).toBeNull();
  expect(medianDeviation([])).toBeNull();
});

test("one value has no spread and equal values no correlation", () => {
  expect(standardDeviation([4])).toBeNull();
  expect(lagOne([4])).toBeNull();
  expect(lagOne([4, 4, 4])).toBeNull();
  expect(() => mean([])).toThrow("no mean");
});
