import fc from "fast-check";
import { expect, test } from "vitest";
import { factsTouching } from "#server/evidence/tables/facts";
import { daysBetween } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";

const pans = (from: string, to: string | null, count: number, ledgerIndex: number, site = 1): Fact => ({
  site,
  kind: "pans",
  key: "",
  from,
  to,
  value: { pans: count },
  ledgerIndex,
  declaredOn: "2031-01-01",
});

test("a fact that a later one covers wholly is listed and does not rule; partly covered it rules the rest", () => {
  const facts = [
    pans("2031-01-01", null, 2, 1),
    pans("2031-03-01", "2031-03-31", 3, 2),
    pans("2031-03-10", "2031-03-20", 4, 3),
    pans("2031-05-01", null, 9, 4),
    pans("2031-01-01", null, 7, 5, 2),
  ];
  const rules = (from: string, to: string) =>
    factsTouching(facts, from, to).map(({ value, inForce: rule }) => [
      value !== null && "pans" in value && value.pans,
      rule,
    ]);
  expect(rules("2031-03-01", "2031-03-31")).toEqual([
    [2, false],
    [3, true],
    [4, true],
    [7, true],
  ]);
  expect(rules("2031-03-12", "2031-03-14")).toEqual([
    [2, false],
    [3, false],
    [4, true],
    [7, true],
  ]);
  expect(rules("2031-04-01", "2031-04-01")).toEqual([
    [2, true],
    [7, true],
  ]);
});

test("a fact rules exactly where it is the one in force on some day, looked up day by day", () => {
  const day = fc.integer({ min: 1, max: 28 }).map((number) => `2031-03-${String(number).padStart(2, "0")}`);
  const facts = fc
    .array(fc.tuple(day, fc.option(day, { nil: null })), { minLength: 1, maxLength: 6 })
    .map((spans) =>
      spans.flatMap(([from, to], at) => (to !== null && to < from ? [] : [pans(from, to, at + 1, at + 1)])),
    );
  fc.assert(
    fc.property(facts, day, day, (all, one, other) => {
      const [from, to] = one < other ? [one, other] : [other, one];
      const ruling = new Set(daysBetween(from, to).map((on) => inForce(all, "pans", on)?.pans));
      for (const { value, inForce: rules } of factsTouching(all, from, to))
        expect(rules).toBe(value !== null && "pans" in value && ruling.has(value.pans));
    }),
    { seed: 19, numRuns: 300 },
  );
});
