import { expect, test } from "vitest";
import { chance, faultsIn, logOf } from "./logs";

test("dried weights that are 0.33 of each fresh weight to the last digit were not weighed", () => {
  const fresh = [10, 11.2, 9.4, 12.6, 8.8, 10.9, 11.7];
  const log = logOf(...fresh.map((kg) => [String(kg), (kg * 0.33).toFixed(2)]));
  const [fault, other] = faultsIn(log);
  expect(other).toBeUndefined();
  expect(fault).toMatchObject({
    code: "dried-worked-out",
    rows: [2, 3, 4, 5, 6, 7, 8],
    yieldThen: null,
    answers: null,
  });
  if (fault?.code !== "dried-worked-out") throw new Error("nothing was found");
  expect(fault.evidence).toMatchObject({ loads: 7, of: 7 });
  expect(fault.evidence.share).toBeCloseTo(0.33, 3);
});

test.each([
  ["fewer than six loads", [10, 11.2, 9.4, 12.6, 8.8], 2],
  ["three different fresh weights only", [10, 11, 9, 10, 11, 9, 10], 2],
  ["a scale too coarse to tell", [10, 11.2, 9.4, 12.6, 8.8, 10.9, 11.7], 1],
])("nothing is said of %s", (_, fresh, places) => {
  expect(faultsIn(logOf(...fresh.map((kg) => [String(kg), (kg * 0.33).toFixed(places)])))).toEqual([]);
});

test("weighed loads differ by more than their scale", () => {
  for (let seed = 1; seed <= 100; seed++) {
    const next = chance(seed);
    const loads = Array.from({ length: 12 }, () => 8 + 4 * next()).map((kg) => [
      kg.toFixed(2),
      (kg * (0.32 + 0.01 * (next() + next() + next() - 1.5))).toFixed(2),
    ]);
    expect(
      faultsIn(logOf(...loads)).filter(({ code }) => code === "dried-worked-out"),
      `seed ${seed}`,
    ).toEqual([]);
  }
});
