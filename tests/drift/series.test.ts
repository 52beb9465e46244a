import fc from "fast-check";
import { expect, test } from "vitest";
import { seriesOf, seriesOfColumns, seriesOfValues } from "#server/drift/series";
import { workingDays } from "./streams";

test("points of one day are added up and the value is the logarithm of the ratio", () => {
  const { series, unusable } = seriesOf([
    { day: "2031-01-03", numerator: 3, denominator: 10 },
    { day: "2031-01-02", numerator: 4, denominator: 10 },
    { day: "2031-01-03", numerator: 11, denominator: 30 },
  ]);
  expect(Array.from(series.value)).toEqual([Math.log(0.4), Math.log(14 / 40)]);
  expect(Array.from(series.mass)).toEqual([10, 40]);
  expect(series.day[1]! - series.day[0]!).toBe(1);
  expect(unusable).toEqual([]);
});

test("a day without a logarithm is told, not scored", () => {
  const { series, unusable } = seriesOfColumns({ day: [1, 2, 3], numerator: [1, 0, 2], denominator: [2, 2, 0] });
  expect(Array.from(series.day)).toEqual([1]);
  expect(unusable).toEqual([2, 3]);
});

test("plain values keep their scale and weigh alike", () => {
  const series = seriesOfValues([
    { day: "2031-01-03", value: -5 },
    { day: "2031-01-02", value: 7 },
  ]);
  expect(Array.from(series.value)).toEqual([7, -5]);
  expect(Array.from(series.mass)).toEqual([1, 1]);
});

test("any order of arrival and any split of the points gives the same bits", () => {
  const days = workingDays(2, 30);
  const points = days.flatMap((point, i) =>
    i % 3 === 0 ? [point, { ...point, numerator: 1, denominator: 3 }] : [point],
  );
  const expected = seriesOf(points);
  fc.assert(
    fc.property(fc.shuffledSubarray(points, { minLength: points.length }), (shuffled) => {
      expect(seriesOf(shuffled)).toEqual(expected);
    }),
    { seed: 1, numRuns: 60 },
  );
});
