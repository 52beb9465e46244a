import { expect, test } from "vitest";
import { knownLayout } from "#server/intake/settle/knownLayout";
import { type KnownLayout, layoutChange, rememberedOf } from "#server/intake/settle/layout";
import type { Answers, Hints } from "#server/terms/row";
import { readLines } from "../readings";

const MAY = ["Date | Lot | Wet | Dry | Minutes", "3/5/2031 | 1 | 5.2 | 1.73 | 80", "4/5/2031 | 2 | 5.3 | 1.71 | 81"];
const JUNE = ["Date | Lot | Wet | Dry | Minutes", "3/6/2031 | 1 | 5.2 | 1.73 | 80", "4/6/2031 | 2 | 5.3 | 1.71 | 81"];
const SETTLED: Answers = { dayOrder: "dmy", units: { "Log!C": "kg", "Log!D": "kg" } };

function known(lines: readonly string[], answers: Answers | undefined, file = "may"): KnownLayout {
  const hints: Hints = answers === undefined ? {} : { answers };
  return knownLayout(file, readLines(hints, ...lines), hints, ["2031-05"]);
}

function remembered(lines: readonly string[], layouts: readonly KnownLayout[], hints: Hints = {}) {
  const read = readLines(hints, ...lines);
  return rememberedOf(read, read.tables, layouts);
}

test("what a log leaves open is taken over from the last log with its columns", () => {
  expect(remembered(JUNE, [known(MAY, SETTLED)])).toEqual({ file: "may", month: "2031-05", answers: SETTLED });
  expect(readLines({ answers: SETTLED }, ...JUNE).counts.counted).toBe(2);
});

test("an order of dates that the cells of the earlier log showed is taken over too; one that they could not show is not", () => {
  const shown = ["Date | In (kg) | Out (kg)", "25/5/2031 | 10 | 3.2"];
  const open = ["Date | In (kg) | Out (kg)", "5/5/2031 | 10 | 3.2"];
  const next = ["Date | In (kg) | Out (kg)", "3/6/2031 | 10 | 3.2"];
  expect(remembered(next, [known(shown, undefined)])?.answers).toEqual({ dayOrder: "dmy" });
  expect(remembered(next, [known(open, undefined)])).toBeNull();
});

test("what a person said against the headings is taken over by heading, wherever the column stands now", () => {
  const before = known(MAY, { ...SETTLED, meanings: { "Log!B": "pan", "Log!E": "ignore" } });
  const moved = [
    "Title",
    "Lot | Date | Dry | Wet | Minutes",
    "1 | 3/6/2031 | 1.73 | 5.2 | 80",
    "2 | 4/6/2031 | 1.71 | 5.3 | 80",
  ];
  expect(remembered(moved, [before])?.answers).toEqual({
    dayOrder: "dmy",
    meanings: { "Log!A": "pan", "Log!E": "ignore" },
    units: { "Log!C": "kg", "Log!D": "kg" },
  });
});

test("a unit is taken over only under the very same heading, and never against what a heading says", () => {
  const grams = ["Date | Lot | Wet (g) | Dry (g) | Minutes", "25/6/2031 | 1 | 5200 | 1730 | 80"];
  expect(remembered(grams, [known(MAY, SETTLED)])).toBeNull();
});

test("the earlier log that is most alike is taken, and one with other columns is none", () => {
  const fuel = known(["Date | Gas before (kg) | Gas after (kg)", "25/5/2031 | 13 | 12"], undefined, "fuel");
  expect(remembered(JUNE, [fuel, known(MAY, SETTLED)])?.file).toBe("may");
  expect(remembered(JUNE, [fuel])).toBeNull();
});

test("a table that was left out is left out again, found by its headings", () => {
  const stock = ["", "Date | Fresh in stock kg | Dried in stock kg | Shelf", "25/5/2031 | 99 | 33 | 1"];
  const before = known([...MAY, ...stock], { ...SETTLED, leftOut: ["Log!5"] });
  const read = remembered(["Title", ...JUNE, ...stock], [before]);
  expect(read?.answers.leftOut).toEqual(["Log!6"]);
});

test.each([
  {
    said: "a missing and a new column",
    now: ["Date | Lot | Wet | Dry | Gas (kg)", "25/6/2031 | 1 | 5.2 | 1.73 | 1"],
    change: { missing: ["Minutes"], added: ["Gas (kg)"], renamed: [], moved: false },
  },
  {
    said: "a renamed column",
    now: ["Date | Lot | Wet | Dry | Duration (min)", "25/6/2031 | 1 | 5.2 | 1.73 | 80"],
    change: { missing: [], added: [], renamed: [{ from: "Minutes", to: "Duration (min)" }] },
  },
  {
    said: "another unit",
    now: ["Date | Lot | Wet (g) | Dry (g) | Minutes", "25/6/2031 | 1 | 5200 | 1730 | 80"],
    change: {
      missing: [],
      added: [],
      units: [
        { heading: "Wet (g)", from: "kg", to: "g" },
        { heading: "Dry (g)", from: "kg", to: "g" },
      ],
    },
  },
  {
    said: "another order of columns and of dates",
    now: ["Date | Lot | Dry | Wet | Minutes", "6/25/2031 | 1 | 1.73 | 5.2 | 80"],
    change: { missing: [], added: [], renamed: [], units: [], moved: true, dayOrder: { from: "dmy", to: "mdy" } },
  },
  {
    said: "nothing",
    now: JUNE,
    change: { missing: [], added: [], renamed: [], units: [], dayOrder: null, moved: false },
  },
])("a changed layout is told: $said", ({ now, change }) => {
  const { tables } = readLines({}, ...now);
  expect(layoutChange(tables, [known(MAY, SETTLED)])?.change).toMatchObject(change);
});

test("no log of a few hundred columns takes long to compare", () => {
  const wide = Array.from({ length: 400 }, (_, at) => `Date ${at}`).join(" | ");
  expect(layoutChange(readLines({}, `Date | In (kg) | Out (kg) | ${wide}`, "1/6/2031 | 1 | 1").tables, [])).toBeNull();
});
