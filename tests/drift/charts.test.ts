import { expect, test } from "vitest";
import { cusumChart } from "#server/drift/cusumChart";
import { ewmaChart } from "#server/drift/ewmaChart";
import { D2, individualsChart } from "#server/drift/individualsChart";
import reference from "../files/reference/drift/charts.json";

test.each(reference.individuals)("individuals: $source", ({ values, mean, movingRange, high, low, outside }) => {
  const chart = individualsChart(values, 3, 1.128)!;
  expect(chart.centre).toBeCloseTo(mean, 4);
  if (movingRange) expect(chart.movingRange).toBeCloseTo(movingRange, 9);
  expect(chart.high).toBeCloseTo(high, 4);
  expect(chart.low).toBeCloseTo(low, 4);
  expect(chart.outside.map((place) => place + 1)).toEqual(outside);
});

test.each(reference.cusum)("cusum: $source", ({ values, target, allowance, limit, up, down, first }) => {
  const chart = cusumChart(values, { target, allowance, limit });
  up.forEach((sum, i) => {
    expect(chart.up[i]).toBeCloseTo(sum, 9);
  });
  down?.forEach((sum, i) => {
    expect(chart.down[i]).toBeCloseTo(sum, 9);
  });
  expect(chart.outside[0]! + 1).toBe(first);
});

test("ewma: e-Handbook 6.3.2.4, fixed limits", () => {
  const { values, ewma, high, low, outside, ...design } = reference.ewma[0]!;
  const chart = ewmaChart(values, design);
  ewma!.forEach((z, i) => {
    // printed to two places from two-place steps
    expect(Math.abs(chart.ewma[i]! - z)).toBeLessThan(0.0051);
  });
  expect(chart.high[0]).toBeCloseTo(high!, 3);
  expect(chart.low.at(-1)).toBeCloseTo(low!, 3);
  expect(chart.outside).toEqual(outside);
});

test("ewma: Montgomery table 9.1, limits that widen", () => {
  const { values, last, firstHigh, lastHigh, outside, ...design } = reference.ewma[1]!;
  const chart = ewmaChart(values, { ...design, widening: true });
  expect(chart.ewma.at(-1)).toBeCloseTo(last!, 5);
  expect(chart.high[0]).toBeCloseTo(firstHigh!, 9);
  expect(chart.high.at(-1)).toBeCloseTo(lastHigh!, 4);
  expect(chart.outside.map((place) => place + 1)).toEqual(outside);
});

test("the constant of the individuals chart is the handbook's 1.128 to its digits", () => {
  expect(D2).toBeCloseTo(1.128379, 6);
  const { values } = reference.individuals[0]!;
  expect(individualsChart(values)!.high).toBeCloseTo(55.80241, 4);
});

// Constants for pairs as in ISO 7870-2 and ASTM E2587 (figures from memory, recomputed from the law of the range).
test("limits of single values are 2.66 mean moving ranges away", () => {
  expect(3 / D2).toBeCloseTo(2.65868077635827, 12);
});

test("one value makes no chart of neighbours", () => {
  expect(individualsChart([3])).toBeNull();
  expect(individualsChart([])).toBeNull();
});

test("charts do not care where the zero of the scale lies", () => {
  const { values, target, allowance, limit } = reference.cusum[0]!;
  const moved = values.map((value) => value + 1000);
  expect(cusumChart(moved, { target: target + 1000, allowance, limit }).outside).toEqual(
    cusumChart(values, { target, allowance, limit }).outside,
  );
  expect(individualsChart(moved)!.high - 1000).toBeCloseTo(individualsChart(values)!.high, 9);
});
