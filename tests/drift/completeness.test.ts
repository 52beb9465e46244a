import { expect, test } from "vitest";
import { incompleteMonths } from "#server/drift/completeness";
import { proportionsChart } from "#server/drift/proportionsChart";
import { toldOn } from "#server/drift/toldOn";
import { monthsBetween } from "#server/terms/days";
import reference from "../files/reference/drift/charts.json";
import { seeded } from "../statistics/seeded";

test.each(reference.proportions)("shares: $source", ({ counts, sizes, centre, high, low, outside, spread }) => {
  const chart = proportionsChart(counts, sizes)!;
  expect(chart.centre).toBeCloseTo(centre, 7);
  high.forEach((limit, i) => {
    expect(chart.high[i]).toBeCloseTo(limit, 5);
  });
  low?.forEach((limit, i) => {
    expect(chart.low[i]).toBeCloseTo(limit, 5);
  });
  expect(chart.outside.map((place) => place + 1)).toEqual(outside);
  if (spread !== null)
    expect(proportionsChart(counts, sizes, { laney: true, d2: 1.128 })!.spread).toBeCloseTo(spread, 3);
});

test("nothing counted has no chart", () => {
  expect(proportionsChart([], [])).toBeNull();
  expect(proportionsChart([0], [0])).toBeNull();
});

const MONTHS = monthsBetween("2031-01", "2032-12");

test("a month with half its batches missing is told, against the months before", () => {
  const months = MONTHS.slice(0, 10).map((month, i) => ({ month, owed: 50, missing: i === 8 ? 25 : 3 + (i % 3) }));
  expect(incompleteMonths(months, 0.001)).toMatchObject([{ month: "2031-09", share: 0.5 }]);
  expect(incompleteMonths(months.slice(0, 6), 0.001)).toEqual([]);
});

test("one missing batch after a clean half-year is not told, months without anything owed are passed over", () => {
  const months = MONTHS.slice(0, 8).map((month, i) => ({ month, owed: i === 3 ? 0 : 26, missing: i === 7 ? 1 : 0 }));
  expect(incompleteMonths(months, 0.001)).toEqual([]);
});

test("months that differ by chance alone are rarely told", () => {
  const chance = seeded(2);
  let told = 0;
  for (let run = 0; run < 400; run++) {
    const months = MONTHS.map((month) => ({
      month,
      owed: 50,
      missing: Array.from({ length: 50 }, chance.uniform).filter((one) => one < 0.1).length,
    }));
    told += incompleteMonths(months, 0.005).length;
  }
  expect(told / (400 * 18)).toBeLessThan(0.009);
});

test("a change is told when the log that shows it is due", () => {
  expect(toldOn("2031-03-10", 12, 6, 5)).toBe("2031-04-05");
  expect(toldOn("2031-03-10", 20, 6, 5)).toBe("2031-05-05");
  expect(toldOn("2031-03-10", 12, 6, null)).toBe("2031-03-24");
});
