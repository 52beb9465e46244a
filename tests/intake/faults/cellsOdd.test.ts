import { expect, test } from "vitest";
import { faultsIn, yieldAfter } from "./logs";

test("a cylinder heavier after than before was changed in between", () => {
  const log = [
    "Date | In (kg) | Out (kg) | Cylinder before (kg) | Cylinder after (kg)",
    "13/6/2031 | 10 | 3.2 | 27.4 | 26.6",
    "14/6/2031 | 10 | 3.3 | 16.1 | 27.9",
  ];
  expect(faultsIn(log)).toMatchObject([
    { code: "cylinder-gained", evidence: { rows: 1, beforeKg: 16.1, afterKg: 27.9 }, rows: [3], answers: null },
  ]);
});

test("days of last year that fit this log are proposed together, one proposal a year that was written", () => {
  const log = [
    "Date | In (kg) | Out (kg)",
    "13/6/2030 | 10 | 3.2",
    "14/6/2030 | 10 | 3.3",
    "15/6/2013 | 10 | 3.1",
    "16/6/2031 | 10 | 3.2",
  ];
  expect(faultsIn(log)).toMatchObject([
    {
      code: "year-mistyped",
      evidence: { rows: 2, written: 2030, proposed: 2031 },
      rows: [2, 3],
      answers: { cells: { "Log!A2": "2031-06-13", "Log!A3": "2031-06-14" } },
    },
    { code: "year-mistyped", evidence: { rows: 1, written: 2013, proposed: 2031 }, rows: [4] },
  ]);
  const cells = Object.assign({}, ...faultsIn(log).map(({ answers }) => answers?.cells));
  expect(yieldAfter(log, { cells })).toBeCloseTo(12.8 / 40, 12);
});

test("years of the Buddhist era are asked about, not corrected as mistyped", () => {
  expect(faultsIn(["Date | In (kg) | Out (kg)", "13/6/2574 | 10 | 3.2", "14/6/2574 | 10 | 3.3"])).toEqual([]);
});
