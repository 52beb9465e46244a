import { expect, test } from "vitest";
import { sum, sumOf } from "#server/statistics/sum";

test("a sum carries its rounding errors along", () => {
  expect(sum([0.1, 0.2, 0.3])).toBe(0.6);
  expect(sum([1, 1e100, 1, -1e100])).toBe(2);
});

test("a sum of nothing is 0 and a sum of one is that one", () => {
  expect(sum([])).toBe(0);
  expect(sumOf([{ kg: 0.1 }], (row) => row.kg)).toBe(0.1);
});

test("hundredths add up to the double nearest to their exact sum", () => {
  for (let seed = 1; seed <= 200; seed++) {
    const hundredths = Array.from({ length: 300 }, (_, i) => (seed * (i + 17) * 7919) % 5000);
    const exact = hundredths.reduce((total, value) => total + value, 0) / 100;
    expect(sum(hundredths.map((value) => value / 100)), `seed ${seed}`).toBeCloseTo(exact, 10);
  }
});
