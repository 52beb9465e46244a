import { expect, test } from "vitest";
import { faultsIn, logOf, yieldAfter } from "./logs";

test("fresh 9, 11, 13 kg and dried 0.32 × fresh + 0.68: slope 0.32, intercept 0.68, a container of 1.0 kg", () => {
  const log = logOf(["9", "3.56"], ["11", "4.20"], ["13", "4.84"]);
  const [fault, other] = faultsIn(log);
  expect(other).toBeUndefined();
  expect(fault).toMatchObject({ code: "container-in-both", sheet: "Log", rows: [2, 3, 4] });
  if (fault?.code !== "container-in-both") throw new Error("no container was found");
  expect(fault.evidence.slope).toBeCloseTo(0.32, 9);
  expect(fault.evidence.interceptKg).toBeCloseTo(0.68, 9);
  expect(fault.evidence.containerKg).toBeCloseTo(1, 9);
  expect(fault.evidence.rSquared).toBeCloseTo(1, 9);
  expect(fault.yieldThen).toBeCloseTo((2.56 + 3.2 + 3.84) / (8 + 10 + 12), 9);
  expect(fault.answers?.cells).toEqual({
    "Log!C2": "8 kg",
    "Log!D2": "2.56 kg",
    "Log!C3": "10 kg",
    "Log!D3": "3.2 kg",
    "Log!C4": "12 kg",
    "Log!D4": "3.84 kg",
  });
  expect(yieldAfter(log, fault.answers ?? {})).toBeCloseTo(0.32, 9);
});

test("1 kg in both weights makes 0.381818 of a true 0.32 at 10 kg, and 0.32 again without it", () => {
  const log = logOf(["11", "4.2"], ["9", "3.56"], ["13", "4.84"], ["11", "4.2"]);
  const [fault] = faultsIn(logOf(["11", "4.2"], ["9", "3.56"], ["13", "4.84"]));
  expect(4.2 / 11).toBeCloseTo(0.381818, 6);
  expect(fault?.yieldThen).toBeCloseTo(0.32, 9);
  expect(yieldAfter(log, faultsIn(log)[0]?.answers ?? {})).toBeCloseTo(0.32, 9);
});

test.each([
  ["the fresh weight is a recipe", logOf(["10", "3.9"], ["10", "3.8"], ["10.1", "3.9"], ["10", "4.0"], ["9.9", "3.8"])],
  ["the yield is true", logOf(["9", "2.9"], ["11", "3.5"], ["13", "4.2"], ["8", "2.6"], ["12", "3.85"])],
  ["the points scatter", logOf(["9", "3.6"], ["11", "3.5"], ["13", "4.2"], ["8", "3.2"], ["12", "3.1"])],
  ["there are only two loads", logOf(["9", "3.56"], ["13", "4.84"])],
])("nothing is said where %s", (_, log) => {
  expect(faultsIn(log)).toEqual([]);
});
