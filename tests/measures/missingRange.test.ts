import { expect, test } from "vitest";
import type { About } from "#server/measures/about";
import { daySums } from "#server/measures/daySums";
import { dryYield } from "#server/measures/dryYield";
import { driedKg, drivenOff, freshKg } from "#server/measures/masses";
import { plusDays } from "#server/terms/days";
import { ABOUT, batch } from "./invented";

const plausible = { highestFreshKg: 50, lowestYield: 0.22, highestYield: 0.38 };
const four: About = { ...ABOUT, owed: 4, plausible };
// 3 of 4 batches: 120 kg in, 36 kg out
const three = daySums([batch("2031-06-02", 40, 12), batch("2031-06-03", 30, 9), batch("2031-06-04", 50, 15)], []);

test("one missing of four batches could have put the yield between 47/170 and 55/170", () => {
  const figure = dryYield(three, four);
  if (!figure.known || !figure.missingRange) throw new Error("not bounded");
  expect(figure.value).toBeCloseTo(0.3, 12);
  expect(figure.missingRange.low).toBeCloseTo(47 / 170, 12);
  expect(figure.missingRange.high).toBeCloseTo(55 / 170, 12);
});

test("nine missing of fifty: 0.27856 to 0.31305, beside a standard error of 0.001784", () => {
  const batches = Array.from({ length: 41 }, (_, i) => {
    const fresh = 38 + (i % 5);
    return batch(plusDays("2031-05-01", i), fresh, Math.round(fresh * (28 + (i % 4))) / 100);
  });
  const figure = dryYield(daySums(batches, []), { ...four, owed: 50 });
  if (!figure.known || !figure.missingRange || !figure.interval) throw new Error("not bounded");
  expect(figure.value).toBeCloseTo(482.64 / 1638, 12);
  expect(figure.missingRange.low).toBeCloseTo(0.27856, 5);
  expect(figure.missingRange.high).toBeCloseTo(0.31305, 5);
  // Student's t at 0.975 with 40 degrees of freedom is 2.0211 (any table)
  expect((figure.interval.high - figure.value) / 2.0211).toBeCloseTo(0.001784, 6);
});

test.each([
  { said: "what was owed is not declared", about: { ...four, owed: null } },
  { said: "what is plausible is not declared", about: { ...four, plausible: null } },
])("the range cannot be bounded when $said", ({ about }) => {
  expect(dryYield(three, about)).toMatchObject({ known: true, missingRange: null });
  expect(freshKg(three, about)).toMatchObject({ known: true, missingRange: null });
});

test("with nothing missing the range is the value itself", () => {
  const figure = dryYield(three, { ...four, owed: 3 });
  if (!figure.known) throw new Error("unknown");
  expect(figure.missingRange).toEqual({ low: figure.value, high: figure.value });
});

test("batches that came and cannot be used are missing too, also above what was owed", () => {
  const more = daySums(
    [batch("2031-06-02", 120, 36), batch("2031-06-02", 40, null), batch("2031-06-02", 41, null)],
    [],
  );
  const figure = dryYield(more, { ...four, owed: 2 });
  if (!figure.known || !figure.missingRange) throw new Error("not bounded");
  expect(figure.missingRange.low).toBeCloseTo((36 + 100 * 0.22) / 220, 12);
});

test("a yield beyond what was called plausible widens the limits and stays inside its range", () => {
  const high = dryYield(daySums([batch("2031-06-02", 100, 45)], []), { ...four, owed: 2 });
  if (!high.known || !high.missingRange) throw new Error("not bounded");
  expect(high.missingRange.high).toBeCloseTo(0.45, 12);
});

test("totals are at least what is logged and at most that with every missing batch at its largest", () => {
  expect(freshKg(three, four)).toMatchObject({ value: 120, missingRange: { low: 120, high: 170 } });
  expect(driedKg(three, four)).toMatchObject({ value: 36, missingRange: { low: 36, high: 36 + 50 * 0.38 } });
  expect(drivenOff(three, four)).toMatchObject({ value: 84, missingRange: { low: 84, high: 84 + 50 * (1 - 0.22) } });
});

test("totals are unknown when nothing was weighed, never 0", () => {
  const unweighed = daySums([batch("2031-06-02", null, 3)], []);
  expect(freshKg(unweighed, four)).toMatchObject({ known: false, why: "no-fresh-weight" });
  expect(drivenOff(unweighed, four)).toMatchObject({ known: false, why: "no-batch-with-both-weights" });
  expect(driedKg(unweighed, four)).toMatchObject({ known: false, why: "no-batch-with-both-weights" });
});

test("the value always lies in its range, and more missing makes it wider", () => {
  for (let seed = 1; seed <= 200; seed++) {
    const kg = 5 + (seed % 40);
    const sums = daySums([batch("2031-06-02", kg, kg * (0.1 + (seed % 9) / 20))], []);
    let width = -1;
    for (const owed of [1, 2, 5, 20]) {
      const figure = dryYield(sums, { ...four, owed });
      if (!figure.known || !figure.missingRange) throw new Error("not bounded");
      const { low, high } = figure.missingRange;
      expect(low, `seed ${seed}`).toBeLessThanOrEqual(figure.value + 1e-12);
      expect(high, `seed ${seed}`).toBeGreaterThanOrEqual(figure.value - 1e-12);
      expect(high - low, `seed ${seed}`).toBeGreaterThan(width - 1e-12);
      width = high - low;
    }
  }
});
