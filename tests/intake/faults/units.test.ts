import { expect, test } from "vitest";
import { faultsIn, logOf, yieldAfter } from "./logs";

test("grams in some rows: the weight that makes a usual load is the one in grams", () => {
  const log = logOf(["10", "3.2"], ["11", "3400"], ["9", "2900"], ["10", "3.3"]);
  expect(faultsIn(log)).toEqual([
    {
      code: "grams-for-kilograms",
      evidence: { loads: 2, of: 4 },
      sheet: "Log",
      rows: [3, 4],
      yieldNow: 6300 / 20,
      yieldThen: 6.3 / 20,
      answers: { cells: { "Log!D3": "3.4 kg", "Log!D4": "2.9 kg" } },
    },
  ]);
  expect(yieldAfter(log, faultsIn(log)[0]?.answers ?? {})).toBeCloseTo(12.8 / 40, 12);
});

test("fresh weights in grams beside sound rows", () => {
  const [fault] = faultsIn(logOf(["10", "3.2"], ["11000", "3.4"], ["9000", "2.9"], ["10", "3.3"]));
  expect(fault?.answers).toEqual({ cells: { "Log!C3": "11 kg", "Log!C4": "9 kg" } });
});

test("with no sound row nothing tells which weight is in grams, and a person is asked", () => {
  const [fault] = faultsIn(logOf(["10", "3200"], ["11", "3400"]));
  expect(fault).toMatchObject({ code: "grams-for-kilograms", answers: null });
});

test("a single slip is the row's own question", () => {
  expect(faultsIn(logOf(["10", "3.2"], ["11", "3400"], ["10", "3.3"]))).toEqual([]);
});

// 22 lb are 9.979 kg
const POUNDS = logOf(["22", "7.1"], ["24", "7.6"], ["21", "6.9"], ["23", "7.2"], ["22", "7.0"]);

test("weights 2.2 times the site's usual load are offered as pounds; the yield stays", () => {
  const [fault] = faultsIn(POUNDS, { usualFreshKg: 10 });
  expect(fault).toMatchObject({
    code: "pounds-for-kilograms",
    evidence: { loads: 5, usualTimes: 2.2 },
    answers: { units: { "Log!C": "lb", "Log!D": "lb" } },
  });
  expect(fault?.yieldThen).toBe(fault?.yieldNow);
  expect(faultsIn(POUNDS)).toEqual([]);
});

test("only the dried weights in pounds make a yield of 2.2 times a plausible one", () => {
  const log = logOf(["10", "7.1"], ["11", "7.6"], ["9.5", "6.9"], ["10.2", "7.2"], ["10", "7.0"]);
  const [fault, other] = faultsIn(log);
  expect(other).toBeUndefined();
  expect(fault).toMatchObject({ code: "pounds-for-kilograms", answers: { units: { "Log!D": "lb" } } });
  expect(yieldAfter(log, fault?.answers ?? {})).toBeCloseTo((35.8 * 0.45359237) / 50.7, 9);
});
