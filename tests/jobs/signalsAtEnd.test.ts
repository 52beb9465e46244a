import { expect, test } from "vitest";
import { atEndOf, lastStanding } from "#server/jobs/signals";
import type { SignalRow } from "#server/jobs/watchOrder";

const raised: SignalRow = {
  site: 1,
  method: "sand-pan",
  measure: "dry-yield",
  raisedOn: "2031-05-20",
  direction: "up",
  month: "2031-05",
  state: "stands",
  chart: "drift",
  confirms: null,
  since: null,
  sinceFrom: "2031-05-01",
  sinceTo: "2031-05-20",
  dateDetermined: false,
  change: 0.1,
  low: 0.05,
  high: 0.15,
  level: 0.95,
  before: 0.3,
  after: 0.33,
  per30Days: 10,
  daysSince: 12,
  together: false,
  costDriedKg: 10,
};
const stateIn = (rows: readonly SignalRow[], month: string) => atEndOf(rows, month).map(({ state }) => state);

test("a signal that nobody answers stands for three months, and then it is said that nobody answered", () => {
  expect(stateIn([raised], "2031-04")).toEqual([]);
  expect(stateIn([raised], "2031-07")).toEqual(["stands"]);
  expect(stateIn([raised], "2031-08")).toEqual(["unanswered"]);
});

test("one that an answer or a declared change ended is not called unanswered", () => {
  expect(stateIn([raised, { ...raised, month: "2031-06", state: "ended" }], "2031-08")).toEqual(["ended"]);
});

test("of a series the last signal stands; once that one is answered, what said the same before it stands no more", () => {
  const again: SignalRow = { ...raised, raisedOn: "2031-06-20", month: "2031-06", confirms: "2031-05-20" };
  expect(lastStanding([raised, again])).toEqual([again]);
  expect(lastStanding([raised, { ...again, state: "ended" }])).toEqual([]);
  expect(lastStanding([raised, { ...again, state: "back" }])).toEqual([raised]);
  expect(lastStanding([raised, { ...again, direction: "down", state: "ended" }])).toEqual([raised]);
  expect(lastStanding([raised, { ...again, measure: "throughput", state: "ended" }])).toEqual([raised]);
});
