import { expect, test } from "vitest";
import { digamma, trigamma, trigammaInverse } from "#server/statistics/polygamma";

// Abramowitz & Stegun 1964, table 6.1 and 6.4.4: ψ(1) = -γ, ψ(1/2) = -γ - 2 ln 2, ψ'(1) = π²/6, ψ'(1/2) = π²/2
test("digamma and trigamma have their known values", () => {
  const gamma = 0.5772156649015329;
  expect(digamma(1)).toBeCloseTo(-gamma, 13);
  expect(digamma(0.5)).toBeCloseTo(-gamma - 2 * Math.LN2, 13);
  expect(digamma(2)).toBeCloseTo(0.4227843351, 10);
  expect(trigamma(1)).toBeCloseTo(Math.PI ** 2 / 6, 13);
  expect(trigamma(0.5)).toBeCloseTo(Math.PI ** 2 / 2, 12);
});

test("the inverse undoes trigamma", () => {
  for (const x of [0.05, 0.3, 1, 2.5, 15, 400]) expect(trigammaInverse(trigamma(x)) / x).toBeCloseTo(1, 7);
});
