import fc from "fast-check";
import { expect, test } from "vitest";
import { daySums } from "#server/measures/daySums";
import type { Batch } from "#server/terms/batch";
import { batch, fact } from "./invented";

const june = [
  batch("2031-06-02", 10, 3, { number: "1", minutes: 95 }),
  batch("2031-06-02", 30, null, { number: "2", driedToCome: true, inTime: false }),
  batch("2031-06-03", null, 2, { number: "3", minutes: 40 }),
];

test("a day's sums each rest on the batches that speak of them", () => {
  const first = daySums(june, []).filter((sum) => sum.day === "2031-06-02");
  expect(first.map(({ measure, batches, loads, num, den }) => [measure, batches, loads, num, den])).toEqual([
    ["here", 2, 2, 2, 2],
    ["in-time", 1, 1, 1, 1],
    ["fresh", 2, 2, 40, 2],
    ["dry-yield", 1, 1, 3, 10],
    ["pan-time", 1, 1, 10, 95],
    ["minutes", 1, 1, 95, 1],
    ["to-come", 1, 1, 30, 1],
  ]);
});

test("a measure that no batch of the day speaks of has no row, not a row of nothing", () => {
  const second = daySums(june, []).filter((sum) => sum.day === "2031-06-03");
  expect(second.map((sum) => sum.measure)).toEqual(["here", "in-time", "minutes"]);
});

test("the scale step in force on the day adds its square over twelve for every weighing", () => {
  const facts = [
    fact("scale-step", { kg: 0.1 }, { key: "fresh" }),
    fact("scale-step", { kg: 0.05 }, { key: "dried", to: "2031-06-02" }),
    fact("scale-step", { kg: 0.01 }, { key: "dried", from: "2031-06-03" }),
  ];
  const tally = batch("2031-06-02", 18, 5.9, { grain: "pan-day", loads: 18 });
  const [first, second] = daySums([tally, batch("2031-06-03", 10, 3)], facts).filter((sum) => sum.measure === "scale");
  expect(first?.num).toBeCloseTo((18 * 0.05 ** 2) / 12, 15);
  expect(first?.den).toBeCloseTo((18 * 0.1 ** 2) / 12, 15);
  expect(second?.num).toBeCloseTo(0.01 ** 2 / 12, 15);
});

test("days, methods and sites are kept apart", () => {
  const sums = daySums(
    [batch("2031-06-02", 4, 1), batch("2031-06-02", 5, 1, { method: "microwave" }), { ...june[0]!, site: 9 }],
    [],
  );
  expect(sums.filter((sum) => sum.measure === "fresh").map((sum) => [sum.site, sum.method, sum.num])).toEqual([
    [3, "microwave", 5],
    [3, "sand-pan", 4],
    [9, "sand-pan", 10],
  ]);
});

const someBatch: fc.Arbitrary<Batch> = fc
  .record({
    day: fc.constantFrom("2031-06-02", "2031-06-03", "2031-06-04"),
    fresh: fc.option(fc.double({ min: 0.1, max: 50, noNaN: true })),
    dried: fc.option(fc.double({ min: 0.01, max: 20, noNaN: true })),
    number: fc.option(fc.string({ maxLength: 3 })),
    minutes: fc.option(fc.integer({ min: 5, max: 200 })),
    loads: fc.integer({ min: 1, max: 20 }),
  })
  .map(({ day, fresh, dried, ...said }) => batch(day, fresh, dried, said));

test("whatever order batches arrive in, the sums are the same bit for bit", () => {
  const facts = [fact("scale-step", { kg: 0.05 }, { key: "dried" })];
  fc.assert(
    fc.property(
      fc
        .array(someBatch, { maxLength: 30 })
        .chain((rows) => fc.tuple(fc.constant(rows), fc.shuffledSubarray(rows, { minLength: rows.length }))),
      ([rows, shuffled]) => {
        expect(daySums(shuffled, facts)).toStrictEqual(daySums(rows, facts));
      },
    ),
    { seed: 20310602, numRuns: 200 },
  );
});
