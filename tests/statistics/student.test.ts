import { expect, test } from "vitest";
import { normalAbove, normalBelow, normalQuantile } from "#server/statistics/normal";
import { normalScore, studentBelow, studentQuantile } from "#server/statistics/student";

// R 4.2: qnorm(1e-10), pnorm(-6), pt(-12, 3), pt(-6.5, 9.5)
test("the normal and Student's law keep their digits in the tails, as R does", () => {
  expect(normalQuantile(1e-10) / -6.3613409024 - 1).toBeCloseTo(0, 11);
  expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 14);
  expect(normalBelow(-6) / 9.86587645038e-10 - 1).toBeCloseTo(0, 11);
  // deeper than R prints: the chance of the answer is the chance asked for
  for (const p of [1e-13, 1e-18, 1e-40, 1e-300])
    expect(Math.abs(normalBelow(normalQuantile(p)) / p - 1)).toBeLessThan(1e-11);
  expect(normalAbove(6)).toBe(normalBelow(-6));
  expect(studentBelow(-12, 3) / 6.225079e-4 - 1).toBeCloseTo(0, 6);
  expect(studentBelow(-6.5, 9.5) / 4.3613728e-5 - 1).toBeCloseTo(0, 7);
});

// Student's t table (Fisher & Yates): 97.5 % points for 1, 10, 30 degrees
test("Student's quantiles are those of the printed table", () => {
  expect(studentQuantile(0.975, 1)).toBeCloseTo(12.706, 3);
  expect(studentQuantile(0.975, 10)).toBeCloseTo(2.228, 3);
  expect(studentQuantile(0.975, 30)).toBeCloseTo(2.042, 3);
});

test("a score has the same tail as its t, for few degrees and many, near and far", () => {
  for (const degrees of [1, 3.5, 8, 11.9, 12, 13.7, 16, 20, 31, 47.25, 79, 81, 200, 1500]) {
    for (const t of [0.001, 0.3, 1, 1.7, 2.4, 3, 3.6, 4.3, 5.2, 6.5, 9, 14]) {
      const exact = -normalQuantile(studentBelow(-t, degrees));
      expect(Math.abs(normalScore(t, degrees) - exact), `${t} with ${degrees}`).toBeLessThan(2e-9 * Math.max(1, exact));
      expect(normalScore(-t, degrees)).toBe(-normalScore(t, degrees));
    }
  }
});

test("a score grows with its t and stays finite however far", () => {
  for (const degrees of [2, 12, 60, 900]) {
    let before = -1;
    for (let t = 0; t < 1e6; t = t * 1.05 + 0.01) {
      const score = normalScore(t, degrees);
      expect(Number.isFinite(score)).toBe(true);
      expect(score, `${t} with ${degrees}`).toBeGreaterThan(before);
      before = score;
    }
  }
});
