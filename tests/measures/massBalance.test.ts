import { expect, test } from "vitest";
import { daySums } from "#server/measures/daySums";
import { massBalance } from "#server/measures/massBalance";
import { containerLeftIn } from "#server/measures/tare";
import { wasteTreatedKg } from "#server/measures/waste";
import type { Batch } from "#server/terms/batch";
import { daysBetween } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import { ABOUT, batch, fact, valued } from "./invented";

const measured = fact("dry-matter", { share: 0.3, sd: 0.03, measured: true });
const balance = (batches: readonly Batch[], facts: readonly Fact[]) => massBalance(daySums(batches, []), facts, ABOUT);

test("what went in is what came out and what was driven off", () => {
  const { masses } = balance([batch("2031-06-02", 10, 3.2), batch("2031-06-02", 10, null)], []);
  expect(masses).toEqual({ freshKg: 10, driedKg: 3.2, drivenOffKg: 6.8 });
});

test("a yield below the measured dry matter shows matter lost, and implies less than no moisture, unclipped", () => {
  const { impliedMoisture, solidsLossAtLeast } = balance([batch("2031-06-02", 10, 2.9)], [measured]);
  expect(valued(impliedMoisture)).toBeCloseTo(-0.0344828, 6);
  expect(valued(solidsLossAtLeast!)).toBeCloseTo(0.1, 12);
});

test("the interval of the moisture adds the error of the dry matter and of the yield", () => {
  const dried = [3.0, 3.2, 3.4, 3.1, 3.3];
  const loads = daysBetween("2031-06-02", "2031-06-06").map((day, i) => batch(day, 10, dried[i]!));
  const { impliedMoisture } = balance(loads, [measured]);
  if (!impliedMoisture.known || !impliedMoisture.interval) throw new Error("unknown");
  // yield 0.32 with se 0.00707107 (see the dry yield's test)
  const error = Math.hypot(0.03 / 0.32, (0.3 * 0.00707107) / 0.32 ** 2);
  expect(impliedMoisture.interval.high - impliedMoisture.value).toBeCloseTo(1.959964 * error, 6);
});

test("dry matter is weighted by the fresh mass of the days it held for", () => {
  const facts = [
    fact("dry-matter", { share: 0.3, sd: 0.01, measured: true }, { to: "2031-06-02" }),
    fact("dry-matter", { share: 0.34, sd: 0.03, measured: true }, { from: "2031-06-03" }),
  ];
  const { dryMatter } = balance([batch("2031-06-02", 30, 10), batch("2031-06-03", 10, 3.5)], facts);
  expect(dryMatter).toMatchObject({
    basis: "measured",
    share: expect.closeTo(0.31, 12),
    sd: expect.closeTo(0.015, 12),
  });
});

test("dry matter declared for a part of the days is not declared for the period", () => {
  const late = fact("dry-matter", { share: 0.3, sd: 0.01, measured: true }, { from: "2031-06-03" });
  const { dryMatter } = balance([batch("2031-06-02", 30, 10), batch("2031-06-03", 10, 3.5)], [late]);
  expect(dryMatter).toEqual({ basis: "not-declared" });
});

test("without a declared dry matter there is a band from common practice and no figure", () => {
  const { impliedMoisture, moistureBand, solidsLossAtLeast } = balance([batch("2031-06-02", 10, 3.5)], []);
  expect(impliedMoisture).toMatchObject({ known: false, why: "dry-matter-not-declared" });
  expect(moistureBand?.low).toBeCloseTo(0, 12);
  expect(moistureBand?.high).toBeCloseTo(1 - 0.23 / 0.35, 12);
  expect(solidsLossAtLeast).toBeNull();
});

test("an assumed dry matter never says that matter was lost", () => {
  const assumed = fact("dry-matter", { share: 0.32, sd: 0.05, measured: false });
  const { solidsLossAtLeast, moistureBand } = balance([batch("2031-06-02", 10, 2.5)], [assumed]);
  expect(solidsLossAtLeast).toBeNull();
  expect(moistureBand?.low).toBeCloseTo(1 - 0.42 / 0.25, 12);
});

test("without both weights there is no balance", () => {
  expect(balance([batch("2031-06-02", 10, null)], [measured])).toMatchObject({
    masses: null,
    impliedMoisture: { known: false, why: "no-batch-with-both-weights" },
  });
});

test("a container of 1 kg left in both weights makes a yield of 0.32 look like 0.3818", () => {
  expect((3.2 + 1) / (10 + 1)).toBeCloseTo(0.381818, 6);
  const line = [9, 11, 13].map((freshKg) => ({ freshKg, driedKg: 0.32 * freshKg + 0.68 }));
  expect(containerLeftIn(line)).toBeCloseTo(1, 9);
});

test("no container is read out of loads fixed by recipe, of two loads, or of a line that is no yield", () => {
  const fixed = [1, 1, 1, 1].map((freshKg, i) => ({ freshKg, driedKg: 0.3 + i / 100 }));
  expect(containerLeftIn(fixed)).toBeNull();
  expect(containerLeftIn(fixed.slice(2))).toBeNull();
  expect(containerLeftIn([5, 10, 15].map((freshKg) => ({ freshKg, driedKg: 8 - freshKg / 5 })))).toBeNull();
});

test("whatever the yield and the container, the line gives the container back", () => {
  for (let seed = 1; seed <= 100; seed++) {
    const dryYield = 0.2 + (seed % 20) / 100;
    const kg = (seed % 7) / 4;
    const loads = [8, 9.5, 11, 14].map((freshKg) => ({ freshKg: freshKg + kg, driedKg: dryYield * freshKg + kg }));
    expect(containerLeftIn(loads), `seed ${seed}`).toBeCloseTo(kg, 9);
  }
});

// Common practice: the share of waste that becomes larvae differs by a factor of five.
test.each([
  [0.25, 4000],
  [0.1, 10_000],
  [0.05, 20_000],
])("1000 kg of larvae at a conversion of %f stand for %d kg of waste", (share, waste) => {
  expect(wasteTreatedKg(1000, share)).toBeCloseTo(waste, 6);
  expect(wasteTreatedKg(1000, 0)).toBeNull();
});
