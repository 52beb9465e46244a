import { expect, test } from "vitest";
import { betweenInWords } from "#app/_words/comparison";
import { between } from "#server/compare/between";
import { entry, measured } from "./entries";

const both = (site: number, dryYield: number, more: Parameters<typeof entry>[2] = {}) =>
  entry(
    site,
    { "dry-yield": measured(dryYield, 0.003), "fuel-per-driven-off": measured(6, 0.1, { unit: "MJ/kg" }) },
    more,
  );

test("two sites that are alike are set against each other, measure by measure", () => {
  const said = between(both(1, 0.34), both(2, 0.3));
  expect(said["dry-yield"]).toMatchObject({ kind: "beyond-chance", difference: expect.closeTo(0.04, 12) });
  expect(said["fuel-per-driven-off"]).toMatchObject({ kind: "within-chance", difference: 0 });
  expect(said["fresh-per-pan-hour"]).toEqual({ kind: "rests-on-little" });
});

test("another fuel does not keep two yields apart, and does two fuels", () => {
  const said = between(both(1, 0.34), both(2, 0.3, { fuel: "firewood" }));
  expect(said["dry-yield"].kind).toBe("beyond-chance");
  expect(said["fuel-per-driven-off"]).toEqual({ kind: "not-alike" });
});

test("another dryer keeps everything apart", () => {
  const said = between(both(1, 0.34), both(2, 0.3, { method: "microwave" }));
  expect(Object.values(said).map(({ kind }) => kind)).toEqual(["not-alike", "not-alike", "not-alike"]);
});

test("each kind of answer is a sentence that says its reason", () => {
  const said = between(both(1, 0.34), both(2, 0.3));
  const words = (one: Parameters<typeof betweenInWords>[0]) =>
    betweenInWords(one, "dry-yield", "Old Jetty", "Salt Lane");
  expect(words(said["dry-yield"])).toBe("Dry yield: Old Jetty is higher than Salt Lane by 4.00 points (3.15 to 4.85).");
  expect(words({ kind: "withheld", why: "missing-could-overturn" })).toContain("could turn the difference round");
  expect(words({ kind: "withheld", why: "missing-cannot-be-bounded" })).toContain("not declared");
  expect(words({ kind: "not-alike" })).toContain("differ in dryer, fuel or weighing moments");
  expect(words({ kind: "rests-on-little" })).toContain("too few days");
  expect(words({ kind: "within-chance", difference: 0, low: -0.01, high: 0.01 })).toContain("−1.00 to 1.00 points");
});
