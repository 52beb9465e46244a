import { expect, test } from "vitest";
import { incompleteMonths, judgedMonths, monthsBeforehand } from "#server/drift/completeness";
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

/** Two years of a site of which about a share p is missing, its months differing by `over` beyond chance. */
function twoYears(chance: ReturnType<typeof seeded>, owed: number, p: number, over: number) {
  return MONTHS.map((month) => {
    const share = Math.sin(Math.max(0, Math.asin(Math.sqrt(p)) + over * chance.normal())) ** 2;
    return { month, owed, missing: Array.from({ length: owed }, chance.uniform).filter((one) => one < share).length };
  });
}

test.each([
  { owed: 26, p: 0.1, over: 0 },
  { owed: 26, p: 0.3, over: 0.12 },
  { owed: 60, p: 0.1, over: 0.06 },
  { owed: 60, p: 0.3, over: 0.12 },
])("of $owed owed, $p missing, differing by $over: false ones are no more than accepted", ({ owed, p, over }) => {
  const chance = seeded(31);
  const accepted = 0.005;
  let [alone, together] = [0, 0];
  const programmes = 40;
  for (let run = 0; run < programmes; run++) {
    const sites = Array.from({ length: 20 }, () => twoYears(chance, owed, p, over));
    const beforehand = monthsBeforehand(sites.map((months) => months.slice(0, 8)));
    for (const months of sites) {
      alone += incompleteMonths(months, accepted).length;
      together += incompleteMonths(months, accepted, beforehand).filter(({ month }) => month > MONTHS[7]!).length;
    }
  }
  expect(alone / (accepted * programmes * 20 * 18)).toBeLessThan(1.15);
  expect(together / (accepted * programmes * 20 * 16)).toBeLessThan(1.15);
});

test("what other sites' months lead to expect finds a bad month of a young site that it alone would not", () => {
  const chance = seeded(7);
  const others = Array.from({ length: 12 }, () => twoYears(chance, 50, 0.1, 0.02));
  const beforehand = monthsBeforehand(others);
  expect(beforehand.s02).toBeGreaterThan(0.7);
  expect(beforehand.s02).toBeLessThan(1.6);
  expect(beforehand.d0).toBeGreaterThan(8);
  const young = [4, 6, 5, 7, 4, 5, 18].map((missing, i) => ({ month: MONTHS[i]!, owed: 50, missing }));
  const uneven = [3, 7, 3, 7, 4, 7, 18].map((missing, i) => ({ month: MONTHS[i]!, owed: 50, missing }));
  expect(incompleteMonths(uneven, 0.001)).toEqual([]);
  expect(incompleteMonths(uneven, 0.001, beforehand)).toMatchObject([{ month: MONTHS[6], share: 0.36 }]);
  expect(incompleteMonths(young, 0.001, beforehand)).toHaveLength(1);
  expect(monthsBeforehand(others.slice(0, 5))).toEqual({ d0: 0, s02: 0 });
  expect(monthsBeforehand([...others].reverse()).s02).toBeCloseTo(beforehand.s02, 12);
  expect(monthsBeforehand([...others, []])).toEqual(beforehand);
});

test("every month is shown with what it was held against, and a told one changes nothing for those after", () => {
  const months = MONTHS.slice(0, 9).map((month, i) => ({ month, owed: 50, missing: i === 7 ? 30 : 3 + (i % 3) }));
  const judged = judgedMonths(months, 0.001);
  expect(judged.map(({ told }) => told)).toEqual(months.map((_, i) => i === 7));
  expect(judged[5]).toMatchObject({ usual: null, limit: null, share: 0.1 });
  expect(judged[8]!.usual).toBeCloseTo((3 + 4 + 5 + 3 + 4 + 5 + 3) / 350, 12);
  expect(judged[8]!.limit).toBeGreaterThan(judged[8]!.share);
});

test("a change is told when the log that shows it is due", () => {
  expect(toldOn("2031-03-10", 12, 6, 5)).toBe("2031-04-05");
  expect(toldOn("2031-03-10", 20, 6, 5)).toBe("2031-05-05");
  expect(toldOn("2031-03-10", 12, 6, null)).toBe("2031-03-24");
});
