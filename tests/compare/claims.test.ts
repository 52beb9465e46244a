import { expect, test } from "vitest";
import { difference, outsideWithheld } from "#server/compare/claims";
import { type KnownFigure, known } from "#server/terms/figure";
import { measured } from "./entries";

/** 36 / 120 = 0.30 with one of four missing; 48 / 120 = 0.40 with none. */
function withRange(value: number, low: number, high: number) {
  const whole = measured(value, 0.002, { usable: 0.75 });
  const figure = whole.figure as KnownFigure;
  return { ...whole, figure: known({ ...figure, missingRange: { low, high } }) };
}

test("a difference beyond chance is told with its interval", () => {
  const claim = difference(measured(0.34, 0.004), measured(0.3, 0.003));
  // error √(0.000016 + 0.000009) = 0.005; Welch's degrees 24 · 25² / (16² + 9²) = 44.5, t = 2.015
  expect(claim).toMatchObject({ kind: "beyond-chance", difference: expect.closeTo(0.04, 12) });
  expect(claim).toMatchObject({ low: expect.closeTo(0.04 - 2.0147 * 0.005, 5) });
});

test("a difference within chance is told as that", () => {
  expect(difference(measured(0.304, 0.004), measured(0.3, 0.003))).toMatchObject({ kind: "within-chance" });
});

test("what missing loads alone could turn round is withheld, with the reason", () => {
  const incomplete = withRange(0.3, 0.276, 0.324);
  expect(difference(incomplete, withRange(0.31, 0.29, 0.33))).toEqual({
    kind: "withheld",
    why: "missing-could-overturn",
  });
  expect(difference(measured(0.31, 0.001), incomplete)).toEqual({ kind: "withheld", why: "missing-could-overturn" });
  expect(difference(measured(0.4, 0.001), incomplete)).toMatchObject({ kind: "beyond-chance" });
});

test("where loads are missing and nobody said what is plausible nothing is claimed", () => {
  const unbounded = measured(0.3, 0.002, { usable: 0.9 });
  expect(difference(measured(0.4, 0.001), unbounded)).toEqual({ kind: "withheld", why: "missing-cannot-be-bounded" });
  const owedUnknown = measured(0.3, 0.002, { usable: null });
  expect(difference(measured(0.4, 0.001), owedUnknown)).toMatchObject({ kind: "withheld" });
});

test("four days, or no figure, say nothing", () => {
  expect(difference(measured(0.4, 0.001), measured(0.3, 0.002, { se: null }))).toEqual({ kind: "rests-on-little" });
});

test("turning the two sites round turns the claim round", () => {
  const [a, b] = [measured(0.34, 0.004, { clusters: 9 }), measured(0.3, 0.003)];
  const [there, back] = [difference(a, b), difference(b, a)];
  if (there.kind !== "beyond-chance" || back.kind !== "beyond-chance") throw new Error("both are beyond chance");
  expect(back.difference).toBeCloseTo(-there.difference, 12);
  expect(back.low).toBeCloseTo(-there.high, 12);
});

test("a site outside its limits is not called so while missing loads could bring it back", () => {
  const limits = { inner: { low: 0.29, high: 0.33 }, outer: { low: 0.28, high: 0.34 }, chance: 0.0001 };
  const above = { ...limits, outside: "above" } as const;
  expect(outsideWithheld(measured(0.4, 0.002), above)).toBeNull();
  expect(outsideWithheld(withRange(0.4, 0.33, 0.42), above)).toBe("missing-could-overturn");
  expect(outsideWithheld(withRange(0.4, 0.35, 0.42), above)).toBeNull();
  expect(outsideWithheld(measured(0.4, 0.002, { usable: 0.5 }), above)).toBe("missing-cannot-be-bounded");
  expect(outsideWithheld(measured(0.3, 0.002, { usable: 0.5 }), { ...limits, outside: null })).toBeNull();
});
