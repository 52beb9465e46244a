import { expect, test } from "vitest";
import { answerOf, daysTyped } from "../../app/signals/[id]/answerOf";

const reason = "The hose was replaced";

test("an answer carries just the days that its kind needs, whatever else the form holds", () => {
  const typed = { from: "2031-03-04", to: "2031-03-09", days: "2031-03-05", reason };
  expect(answerOf({ ...typed, kind: "real-change" })).toEqual({ kind: "real-change", from: "2031-03-04", reason });
  expect(answerOf({ ...typed, kind: "temporary-cause" })).toEqual({
    kind: "temporary-cause",
    from: "2031-03-04",
    to: "2031-03-09",
    reason,
  });
  expect(answerOf({ ...typed, kind: "data-error" })).toEqual({ kind: "data-error", days: ["2031-03-05"], reason });
  expect(answerOf({ ...typed, kind: "no-cause-found" })).toEqual({ kind: "no-cause-found", reason });
});

test("the answer holds for the others of its story that were ticked, each of a series", () => {
  const also = {
    "also sand-pan throughput": "OJ.sand-pan.throughput.2031-03-09.up OJ.sand-pan.throughput.2031-03-16.up",
  };
  expect(answerOf({ kind: "no-cause-found", reason, ...also })).toMatchObject({
    also: ["OJ.sand-pan.throughput.2031-03-09.up", "OJ.sand-pan.throughput.2031-03-16.up"],
  });
});

test.each([
  [{ reason }, { kind: "Choose one of the four answers." }],
  [{ kind: "better", reason }, { kind: "Choose one of the four answers." }],
  [{ kind: "real-change", from: "", reason }, { from: "Write the first day, such as 2031-03-31." }],
  [{ kind: "real-change", from: "2031-02-30", reason }, { from: "Write the first day, such as 2031-03-31." }],
  [
    { kind: "temporary-cause", from: "2031-03-09", to: "2031-03-04", reason },
    { to: "The last day, 2031-03-04, is before the first, 2031-03-09." },
  ],
  [{ kind: "no-cause-found", reason: "  " }, { reason: "Write why: what was seen, asked and found." }],
  [{ kind: "no-cause-found", reason: "x".repeat(1201) }, { reason: "Write it in 1200 letters or fewer; it has 1201." }],
])("%j is asked about in a sentence", (typed, wrong) => {
  expect(answerOf(typed)).toEqual({ wrong });
});

test.each([
  ["2031-03-04", ["2031-03-04"]],
  ["2031-03-06, 2031-03-04;2031-03-04", ["2031-03-04", "2031-03-06"]],
  ["2031-02-27 to 2031-03-01 2031-03-05", ["2031-02-27", "2031-02-28", "2031-03-01", "2031-03-05"]],
])("the days %s are read", (text, days) => {
  expect(daysTyped(text)).toEqual(days);
});

test.each([
  ["", "Write the days whose record is wrong."],
  ["4 March", "“4” is no day; write it as 2031-03-31."],
  ["2031-03-04 to", "“to” is no day; write it as 2031-03-31."],
  ["2031-03-04 to 2031-03-01", "2031-03-04 to 2031-03-01 ends before it begins."],
  ["2029-01-01 to 2031-01-01", "These are 731 days; 400 at the most can be named at once."],
])("the days “%s” are asked about", (text, sentence) => {
  expect(daysTyped(text)).toBe(sentence);
});
