import { expect, test } from "vitest";
import { adjustedChances } from "#server/statistics/falseDiscovery";

// Benjamini & Hochberg 1995, Journal of the Royal Statistical Society B 57:289, the 15 p-values of their example
const published = [
  0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528, 0.759, 1,
];

test("the published example rejects four at 5 %, where a division by 15 rejects three", () => {
  const adjusted = adjustedChances(published);
  expect(adjusted.filter((chance) => chance <= 0.05)).toHaveLength(4);
  expect(published.filter((chance) => chance <= 0.05 / 15)).toHaveLength(3);
  expect(adjusted.slice(0, 6)).toEqual(
    [0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.063857143].map((chance) => expect.closeTo(chance, 8)),
  );
});

test("the order of the input is kept and nothing is worked out from nothing", () => {
  expect(adjustedChances([0.01, 0.04, 0.03])).toEqual([0.03, 0.04, 0.04].map((chance) => expect.closeTo(chance, 12)));
  expect(adjustedChances([])).toEqual([]);
});
