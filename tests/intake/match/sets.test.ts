import { expect, test } from "vitest";
import { matchRows } from "#server/intake/match/matchRows";
import type { BatchWritten } from "#server/terms/batch";
import { knownOf, load, rowsOf } from "./someBatches";

const one = (number: string, fresh: number, more: Parameters<typeof load>[0] = {}) => load({ number, fresh, ...more });
const set = (more: Parameters<typeof load>[0] = {}) =>
  load({ number: "3+4+5", grain: "set", loads: 3, fresh: 33, dried: 10.5, ...more });
const tally = (more: Parameters<typeof load>[0] = {}) =>
  load({ grain: "site-day", loads: 3, fresh: 33, dried: 10.5, ...more });
const singles = [one("3", 10), one("4", 11), one("5", 12)];

test.each<{ said: string; known: BatchWritten[]; rows: BatchWritten[]; becomes: string[]; vanished?: string[] }>([
  {
    said: "a set takes the place of its loads",
    known: singles,
    rows: [set()],
    becomes: ["takes-place b1 b2 b3"],
  },
  {
    said: "a set that is here already says the same again",
    known: [set()],
    rows: [set()],
    becomes: ["same"],
  },
  {
    said: "a set of which one load is not here is doubtful",
    known: singles.slice(0, 2),
    rows: [set()],
    becomes: ["doubtful b1 b2"],
    vanished: ["b1", "b2"],
  },
  {
    said: "a set that weighs more than its loads is doubtful",
    known: singles,
    rows: [set({ fresh: 34 })],
    becomes: ["doubtful b1 b2 b3"],
    vanished: ["b1", "b2", "b3"],
  },
  {
    said: "a set whose loads have dried weights that do not add up to its own is doubtful",
    known: [one("3", 10, { dried: 3 }), one("4", 11, { dried: 3.5 }), one("5", 12, { dried: 3.6 })],
    rows: [set()],
    becomes: ["doubtful b1 b2 b3"],
    vanished: ["b1", "b2", "b3"],
  },
  {
    said: "a set of other numbers is another",
    known: singles,
    rows: [set({ number: "6+7+8" })],
    becomes: ["new"],
    vanished: ["b1", "b2", "b3"],
  },
  {
    said: "loads of a set that is here are parts of it",
    known: [set()],
    rows: singles,
    becomes: ["same b1", "same b1", "same b1"],
  },
  {
    said: "some of the loads of a set that is here are doubtful",
    known: [set()],
    rows: singles.slice(0, 2),
    becomes: ["doubtful b1", "doubtful b1"],
    vanished: ["b1"],
  },
  {
    said: "a set without numbers takes the place of just as many loads in its time",
    known: singles.map((batch, at) => ({ ...batch, number: null, startMinute: 480 + at * 90 })),
    rows: [set({ number: null, startMinute: 480, endMinute: 760 })],
    becomes: ["takes-place b1 b2 b3"],
  },
  {
    said: "a set that begins with a load whose others are not here is doubtful",
    known: [load({ startMinute: 480, fresh: 10 })],
    rows: [set({ number: null, startMinute: 480, endMinute: 760 })],
    becomes: ["doubtful b1"],
    vanished: ["b1"],
  },
  {
    said: "a set of the afternoon is not the loads of the morning",
    known: singles.map((batch, at) => ({ ...batch, number: null, startMinute: 480 + at * 90 })),
    rows: [set({ number: null, startMinute: 800, endMinute: 1080 })],
    becomes: ["new"],
    vanished: ["b1", "b2", "b3"],
  },
  {
    said: "a day's tally that adds up to its loads says the same again",
    known: singles,
    rows: [tally()],
    becomes: ["same b1 b2 b3"],
  },
  {
    said: "a day's tally that does not add up to the loads here is doubtful",
    known: singles,
    rows: [tally({ loads: 4, fresh: 43 })],
    becomes: ["doubtful b1 b2 b3"],
    vanished: ["b1", "b2", "b3"],
  },
  {
    said: "loads of a day whose tally is here and adds up are parts of it",
    known: [tally()],
    rows: singles,
    becomes: ["same b1", "same b1", "same b1"],
  },
  {
    said: "the tally of another pan stands beside the loads",
    known: singles.map((batch) => ({ ...batch, pan: "1" })),
    rows: [tally({ grain: "pan-day", pan: "2" })],
    becomes: ["new"],
    vanished: ["b1", "b2", "b3"],
  },
])("$said", ({ known, rows, becomes, vanished = [] }) => {
  const found = matchRows(rowsOf(rows), knownOf(known), "site");
  expect(found.matches.map(({ kind, members }) => [kind, ...members].join(" "))).toEqual(becomes);
  expect(found.vanished).toEqual(vanished);
});

test.each([
  { is: "new", becomes: ["new"] },
  { is: "instead", becomes: ["takes-place b1 b2"] },
  { is: "b1", becomes: ["changed"] },
  { is: "gone", becomes: ["doubtful b1 b2"] },
])("what a person said of a doubtful row holds: $is", ({ is, becomes }) => {
  const rows = rowsOf([set()]).map((row) => ({ ...row, is }));
  const found = matchRows(rows, knownOf(singles.slice(0, 2)), "site");
  expect(found.matches.map(({ kind, members }) => [kind, ...members].join(" "))).toEqual(becomes);
});

test("a day between those of a log has vanished where the log that brought it is sent again, and only there", () => {
  const days = ["2031-06-02", "2031-06-03", "2031-06-04"];
  const known = [...days, ...days.slice(1, 2)].map((day, at) => ({
    id: `b${at + 1}`,
    batch: one(String(at + 1), 10, { day }),
    from: at < 3 ? "earlier" : "another",
  }));
  const rows = rowsOf([one("1", 10, { day: days[0] ?? "" }), one("3", 10, { day: days[2] ?? "" })]);
  expect(matchRows(rows, known, "site").vanished).toEqual(["b2"]);
});
