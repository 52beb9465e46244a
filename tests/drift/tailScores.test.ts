import { expect, test } from "vitest";
import { tailScores } from "#server/drift/tailScores";
import { seeded } from "../statistics/seeded";

const pooled = { omega: 0, rho: 0, d0: 0, s02: 0, worth: 1 };

/** A stream of independent days of one mass. */
function stream(values: readonly number[]) {
  return {
    day: Int32Array.from(values, (_, i) => i),
    value: Float64Array.from(values),
    mass: new Float64Array(values.length).fill(1),
  };
}

test("while nothing changes the sizes are those of standard normal scores, in short streams and long ones", () => {
  const chance = seeded(8);
  for (const days of [20, 40, 200]) {
    const sizes = Array.from({ length: Math.ceil(60_000 / days) }, () =>
      Array.from(tailScores(stream(Array.from({ length: days }, chance.normal)), pooled)),
    ).flat();
    expect(sizes.length).toBe(Math.ceil(60_000 / days) * (days - 12));
    for (const [size, share] of [
      [1.959964, 0.05],
      [2.575829, 0.01],
      [3.290527, 0.001],
    ] as const)
      expect(sizes.filter((one) => one > size).length / sizes.length / share, `${days} days`).toBeCloseTo(1, 0);
  }
});

test("a far day lies as far out in a young stream as in the history that it will have", () => {
  const chance = seeded(9);
  const values = Array.from({ length: 300 }, chance.normal);
  const far = (at: number) => {
    const sizes = tailScores(stream(values.map((value, i) => (i === at ? 6 : value))), pooled);
    return sizes[at - 12]!;
  };
  expect(far(15)).toBeGreaterThan(5);
  expect(far(15) / far(280)).toBeGreaterThan(0.85);
});

test("a stream without spread, or hardly begun, has none", () => {
  expect(tailScores(stream(Array.from({ length: 40 }, () => 1)), pooled)).toHaveLength(0);
  expect(tailScores(stream([1, 2]), pooled)).toHaveLength(0);
  expect(tailScores(stream([]), pooled)).toHaveLength(0);
});
