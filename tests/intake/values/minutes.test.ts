import { expect, test } from "vitest";
import { type MinutesMeasure, readMinutes } from "#server/intake/values/minutes";
import { stored, written } from "./cells";

const MIN: MinutesMeasure = { unit: "min", mark: null };
const HOURS: MinutesMeasure = { unit: "h", mark: "." };

test.each([
  "80",
  "80'",
  "80’",
  "80 min",
  "80mn",
  "80 minutes",
  "1h20",
  "1 h 20 min",
  "1H20",
  "1:20",
  "1h20'",
  "1 jam 20 menit",
  "saa 1 dk 20",
  "01:20:00",
  "1900-01-00 01:20",
  "4800 s",
])("“%s” is 80 minutes", (text) => {
  expect(readMinutes(written(text), MIN)).toEqual({ kind: "minutes", minutes: { exact: "80", value: 80 } });
});

test.each<[string, number]>([
  ["2h", 120],
  ["1,5h", 90],
  ["1.5 h", 90],
  ["1 hr", 60],
  ["90.5", 90.5],
])("“%s” is %s minutes", (text, value) => {
  expect(readMinutes(written(text), MIN)).toMatchObject({ minutes: { value } });
});

test("a bare number in a column of hours is hours", () => {
  expect(readMinutes(written("1.5"), HOURS)).toMatchObject({ minutes: { value: 90 } });
  expect(readMinutes(written("2"), HOURS)).toMatchObject({ minutes: { value: 120 } });
});

test("a spreadsheet's 0.0555556 of a day is 80 minutes", () => {
  for (const kind of ["time", "day", "number"] as const) {
    expect(readMinutes(stored(0.0555556, kind), MIN)).toMatchObject({ minutes: { exact: "80" } });
  }
  expect(readMinutes(written("0.0555556"), MIN)).toMatchObject({ minutes: { exact: "80" } });
});

test.each<[string, string, string[]]>([
  ["1.20", "minutes-unclear", ["1h20", "1.2 h"]],
  ["1.5", "minutes-unclear", ["1.5 h", "1.5 min"]],
  ["90-100", "minutes-unclear", ["95 min"]],
  ["long", "minutes-not-a-number", []],
  ["-20", "minutes-not-a-number", []],
])("“%s” is held: %s", (text, code, puts) => {
  expect(readMinutes(written(text), MIN)).toEqual({ kind: "problem", code, puts });
});

test("what is offered for a duration is read without doubt when it is put in", () => {
  for (const text of ["1.20", "1.5", "90-100"]) {
    const read = readMinutes(written(text), MIN);
    for (const put of read.kind === "problem" ? read.puts : ["none offered"]) {
      expect(readMinutes(written(put), { ...MIN, mark: "." }).kind, put).toBe("minutes");
    }
  }
});
