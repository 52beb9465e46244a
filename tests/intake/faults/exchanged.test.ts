import { expect, test } from "vitest";
import { faultsIn, logOf, yieldAfter } from "./logs";

test("in and out the wrong way round in most rows, with a plausible yield the other way", () => {
  const log = logOf(["3.2", "10"], ["3.5", "11"], ["2.9", "9"]);
  expect(faultsIn(log)).toEqual([
    {
      code: "in-out-exchanged",
      evidence: { loads: 3, of: 3 },
      sheet: "Log",
      rows: [2, 3, 4],
      yieldNow: 30 / 9.6,
      yieldThen: 9.6 / 30,
      answers: { meanings: { "Log!C": "dried", "Log!D": "fresh" } },
    },
  ]);
  expect(yieldAfter(log, faultsIn(log)[0]?.answers ?? {})).toBeCloseTo(0.32, 12);
});

test("one part sand to one part larvae makes out over in about 1.3: that is sand, not an exchange", () => {
  const log = logOf(["10", "13.2"], ["11", "14.3"], ["9", "11.9"]);
  expect(faultsIn(log)).toMatchObject([
    {
      code: "sand-in-dried",
      evidence: { loads: 3, driedPerFresh: expect.closeTo(1.32, 9) },
      yieldThen: null,
      answers: null,
    },
  ]);
});

test("where the rows log their sand, what is left without it is offered", () => {
  const log = [
    "Date | In (kg) | Out (kg) | Sand (kg)",
    "3/6/2031 | 10 | 13.2 | 10",
    "4/6/2031 | 11 | 14.3 | 10.9",
    "13/6/2031 | 9 | 11.9 | 9",
  ];
  const [fault] = faultsIn(log);
  expect(fault?.answers).toEqual({ cells: { "Log!C2": "3.2 kg", "Log!C3": "3.4 kg", "Log!C4": "2.9 kg" } });
  expect(yieldAfter(log, fault?.answers ?? {})).toBeCloseTo(9.5 / 30, 12);
});

test("a few rows of that kind are their own questions", () => {
  expect(faultsIn(logOf(["3.2", "10"], ["3.5", "11"], ["10", "3.3"], ["10", "3.1"], ["10", "3.2"]))).toEqual([]);
});
