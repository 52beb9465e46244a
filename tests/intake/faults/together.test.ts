import { expect, test } from "vitest";
import { faultsIn, HEADING, yieldAfter } from "./logs";

const SOUND = ["11/6/2031 | 1 | 10 | 3.2 | 90", "12/6/2031 | 2 | 10 | 3.3 | 92"];

test("one weight under three loads is offered as theirs together", () => {
  const log = [
    HEADING,
    ...SOUND,
    "13/6/2031 | 3 | 10 | | 90",
    "13/6/2031 | 4 | 10 | | 85",
    "13/6/2031 | 5 | 12 | 10.4 | 95",
  ];
  const [fault, other] = faultsIn(log);
  expect(other).toBeUndefined();
  expect(fault).toEqual({
    code: "weighed-together",
    evidence: { loads: 3, alone: 10.4 / 12, together: 10.4 / 32 },
    sheet: "Log",
    rows: [4, 5, 6],
    yieldNow: 10.4 / 12,
    yieldThen: 10.4 / 32,
    answers: { together: [["Log!6", "Log!4", "Log!5"]] },
  });
  expect(yieldAfter(log, fault?.answers ?? {})).toBeCloseTo(16.9 / 52, 12);
});

test("a weight on a line of its own below its loads", () => {
  const log = [HEADING, ...SOUND, "13/6/2031 | 3 | 10 | | 90", "13/6/2031 | 4 | 10 | | 85", "13/6/2031 | | | 6.5 |"];
  expect(faultsIn(log)).toMatchObject([
    {
      code: "weighed-together",
      evidence: { loads: 2, together: 0.325 },
      answers: { together: [["Log!6", "Log!4", "Log!5"]] },
    },
  ]);
});

test("of several loads above, only as many belong to it as make the usual yield", () => {
  const log = [
    HEADING,
    ...SOUND,
    "13/6/2031 | 3 | 10 | | 90",
    "13/6/2031 | 4 | 10 | | 85",
    "13/6/2031 | 5 | 10 | 6.6 | 95",
  ];
  expect(faultsIn(log)).toMatchObject([{ rows: [5, 6], evidence: { loads: 2, together: expect.closeTo(0.33, 9) } }]);
});

test.each([
  ["loads that simply wait", ["13/6/2031 | 3 | 10 | | 90", "13/6/2031 | 4 | 10 | 3.2 | 85"]],
  ["loads of the day before", ["13/6/2031 | 3 | 10 | | 90", "14/6/2031 | 4 | 10 | 6.4 | 85"]],
  ["a weight that is too much for all of them", ["13/6/2031 | 3 | 10 | | 90", "13/6/2031 | 4 | 10 | 15 | 85"]],
])("nothing is said of %s", (_, rows) => {
  expect(faultsIn([HEADING, ...SOUND, ...rows])).toEqual([]);
});
