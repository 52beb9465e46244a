import { expect, test } from "vitest";
import type { Hints } from "#server/terms/row";
import { lines, readLines } from "../readings";

const HEADING = "Date | No | In (kg) | Out (kg) | Minutes | Remarks";

/** The rows below the usual heading, without their row numbers. */
function rows(hints: Hints, ...log: string[]): string[] {
  return lines(readLines(hints, HEADING, ...log))
    .slice(1)
    .map((row) => row.replace(/^\d+ /, ""));
}

test.each<{ said: string; log: string[]; become: string[]; hints?: Hints }>([
  {
    said: "a log that always writes the day does not mean the one above by a blank",
    log: ["13/6/31 | 1 | 10 | 3 | 80", "13/6/31 | 2 | 10 | 3 | 80", " | 3 | 10 | 3 | 80"],
    become: ["counted 2031-06-13 #1 10>3 80min", "counted 2031-06-13 #2 10>3 80min", "held | day-missing"],
  },
  {
    said: "a day that cannot be read does not let the one before it fill down",
    log: ["13/6/31 | 1 | 10 | 3", "31/6/31 | 2 | 10 | 3", " | 3 | 10 | 3", " | 4 | 10 | 3"],
    become: [
      "counted 2031-06-13 #1 10>3 | minutes-missing",
      "held | day-not-a-date",
      "held | day-missing",
      "held | day-missing",
    ],
  },
  {
    said: "a negative weight is held",
    log: ["13/6/31 | 1 | -10 | 3 | 80"],
    become: ["held 2031-06-13 #1 ?>3 80min | mass-negative"],
  },
  {
    said: "a dried weight of zero is held, and counts once a person says so",
    log: ["13/6/31 | 1 | 10 | 0 | 80"],
    become: ["held 2031-06-13 #1 10>0 80min | dried-is-zero"],
  },
  {
    said: "zero that a person has put in counts",
    log: ["13/6/31 | 1 | 10 | 0 | 80"],
    hints: { answers: { cells: { "Log!D2": "0 kg" } } },
    become: ["counted 2031-06-13 #1 10>0 80min | unit-from-cell yield-unusual"],
  },
  {
    said: "a rare yield counts and is noted",
    log: ["13/6/31 | 1 | 10 | 6 | 80"],
    become: ["counted 2031-06-13 #1 10>6 80min | yield-unusual"],
  },
  {
    said: "work without a weight is held; a prepared line, a note and an idle day are no batches",
    log: [
      "13/6/31 | 1 |  |  | 80",
      "14/6/31 | 2",
      "15/6/31 | 3 | 10 | 3 | 80",
      " | new burner came",
      "16/6/31 | | | | | closed, rain",
      "17/6/31 | 4 | 0 | 0",
      "19/6/31 | 5 | 10 | 3 | 80",
    ],
    become: [
      "held | nothing-to-count",
      "set-aside | blank-row",
      "counted 2031-06-15 #3 10>3 80min",
      "set-aside | blank-row",
      "set-aside | nothing-produced-row",
      "set-aside | nothing-produced-row",
      "counted 2031-06-19 #5 10>3 80min",
    ],
  },
  {
    said: "a ditto mark below a subtotal means the load above it",
    log: ["13/6/31 | 1 | 10 | 3 | 80", "Sub-total | | 10 | 3 | 80", '14/6/31 | 2 | 9 | 3 | "'],
    become: [
      "counted 2031-06-13 #1 10>3 80min",
      "set-aside | totals-row",
      "counted 2031-06-14 #2 9>3 80min | repeated-by-ditto",
    ],
  },
  {
    said: "minutes without a weight are work, rain or not; zeros alone are none",
    log: ["13/6/31 | 1 | | | 80 | rain", "14/6/31 | | 0 | 0 | 0", "16/6/31 | | | | 0"],
    become: ["held | nothing-to-count", "set-aside | nothing-produced-row", "set-aside | nothing-produced-row"],
  },
  {
    said: "a word for an idle day in the place of a weight is an idle day, but beside an unclear weight it is not",
    log: ["13/6/31 | | closed", "14/6/31 | 1 | 10 | 3.500 | 80 | rain"],
    become: ["set-aside | nothing-produced-row", "held 2031-06-14 #1 10>? 80min | mass-decimal-unclear"],
  },
  {
    said: "the same line twice is counted once; without a number both count",
    log: [
      "13/6/31 | 1 | 10 | 3 | 80",
      "13/6/31 | 1 | 10 | 3 | 80",
      "13/6/31 | | 1 | 0.3 | 18",
      "13/6/31 | | 1 | 0.3 | 18",
    ],
    become: [
      "counted 2031-06-13 #1 10>3 80min",
      "set-aside | same-row-already-here",
      "counted 2031-06-13 1>0.3 18min",
      "counted 2031-06-13 1>0.3 18min",
    ],
  },
  {
    said: "minutes that may be hours are held",
    log: ["13/6/31 | 1 | 10 | 3 | 1.20"],
    become: ["held 2031-06-13 #1 10>3 | minutes-unclear"],
  },
  {
    said: "a row with a separator too many is held, unless it only parts the last remark",
    log: ["13/6/31 | 1 | 10 | 3 | 80 | rain | then sun", "13/6/31 | 2 | 10 | 5 | 3 | 2 | 80"],
    become: ["counted 2031-06-13 #1 10>3 80min", "held 2031-06-13 #2 10>5 3min | row-too-wide"],
  },
  {
    said: "text in a weight's place is held",
    log: ["13/6/31 | 1 | Moses | 3 | 80"],
    become: ["held 2031-06-13 #1 ?>3 80min | mass-not-a-number"],
  },
  {
    said: "a day's subtotal below days written once may be a load, so it is held",
    log: ["13/6/31 | | 5 | 1.6", " | | 5 | 1.6", " | | 10 | 3.2"],
    become: [
      "counted 2031-06-13 5>1.6 | minutes-missing",
      "counted 2031-06-13 5>1.6 | minutes-missing",
      "held 2031-06-13 10>3.2 | day-missing minutes-missing",
    ],
  },
  {
    said: "numbers, pans and codes stay as they are written",
    log: ["13/6/31 | 007 | 10 | 3 | 80", "13/6/31 | B-12/a | 10 | 3 | 80"],
    become: ["counted 2031-06-13 #007 10>3 80min", "counted 2031-06-13 #B-12/a 10>3 80min"],
  },
])("$said", ({ log, become, hints = {} }) => {
  expect(rows(hints, ...log)).toEqual(become);
});

test("minutes run from start to end, over midnight when the load then lasts eight hours at most", () => {
  const log = [
    "Date | In (kg) | Out (kg) | Start | End",
    "13/6/31 | 10 | 3 | 23:20 | 00:40",
    "13/6/31 | 10 | 3 | 9:30 | 8:00",
    "13/6/31 | 10 | 3 | dawn | 8:00",
    "13/6/31 | 10 | 3 | | 8:00",
  ];
  expect(lines(readLines({}, ...log)).slice(1)).toEqual([
    "2 counted 2031-06-13 10>3 80min | midnight-crossed",
    "3 held 2031-06-13 10>3 | end-before-start",
    "4 held 2031-06-13 10>3 | minutes-not-a-number",
    "5 counted 2031-06-13 10>3 | minutes-missing",
  ]);
});

test("a start that cannot be read is only noted where the minutes are written", () => {
  const log = ["Date | In (kg) | Out (kg) | Start | Minutes", "13/6/31 | 10 | 3 | dawn | 80"];
  expect(lines(readLines({}, ...log))[1]).toBe("2 counted 2031-06-13 10>3 80min | cell-not-read");
});

test("several loads in a row are a day of a pan or a site, or a set when they have a number of their own", () => {
  const grains = (hints: Hints, ...log: string[]) =>
    readLines(hints, ...log)
      .rows.slice(1)
      .map(({ batch }) => [batch?.grain, batch?.loads]);
  expect(grains({}, "Date | Loads | In (kg) | Out (kg)", "13/6/31 | 18 | 18 | 5.9", "14/6/31 | 1 | 1 | 0.3")).toEqual([
    ["site-day", 18],
    ["load", 1],
  ]);
  expect(grains({}, "Date | Pan | Loads | In (kg)", "13/6/31 | A | 9 | 9")).toEqual([["pan-day", 9]]);
  expect(grains({}, "Date | Batch no | Loads | In (kg)", "13/6/31 | 4 | 5 | 5")).toEqual([["set", 5]]);
  expect(grains({ tally: true }, "Date | In (kg) | Out (kg)", "13/6/31 | 18 | 5.9")).toEqual([["site-day", 1]]);
  expect(lines(readLines({}, "Date | Loads | In (kg)", "13/6/31 | 2.5 | 5"))[1]).toContain("loads-not-a-number");
});

test("what else a log says of a batch is kept as it says it", () => {
  const heading =
    "Date | In (kg) | Out (kg) | Method | New sand | Sand (kg) | Crush test | Crisp | Colour | Moisture | aw | Rejects (g) | Harvest";
  const [first, second] = readLines(
    {},
    heading,
    "13/6/31 | 10 | 3 | | yes | 12 | pass | soft | brown | 8 % | 0.38 | 150 | H7",
    "14/6/31 | 10 | 3 | hot air | | | | | | 0.07 | | |",
  )
    .rows.slice(1)
    .map(({ batch }) => batch);
  expect(first).toMatchObject({
    method: null,
    newSand: true,
    sandKg: { exact: "12" },
    crushTest: "pass",
    crisp: "fail",
    colour: "brown",
    moistureReading: { exact: "0.08" },
    waterActivity: { exact: "0.38" },
    rejects: { exact: "0.15" },
    harvest: "H7",
  });
  expect(second).toMatchObject({
    method: "hot-air-cabinet",
    newSand: false,
    sandKg: null,
    sandCycle: null,
    crushTest: "not-tested",
    colour: null,
    moistureReading: { exact: "0.07" },
    rejects: null,
    harvest: null,
  });
});

test("a back-file of several sites carries the site of each row, written once or every time", () => {
  const read = readLines(
    {},
    "Site | Date | In (kg) | Out (kg)",
    "Old Jetty | 13/6/31 | 10 | 3",
    " | 14/6/31 | 10 | 3",
    "Salt Lane | 13/6/31 | 9 | 3",
  );
  expect(read.rows.map(({ site }) => site)).toEqual([null, "Old Jetty", "Old Jetty", "Salt Lane"]);
});

test("a weight that may be in another unit is added up nowhere, so the log's total is not off by thousands", () => {
  const { rows, totals } = readLines(
    { period: "2031-06" },
    "Date | Fresh (kg) | Dried (kg)",
    "2031-06-01 | 10,5 | 3,4",
    "2031-06-02 | 3.500 | 1,2",
    "2031-06-03 | 11,5 | 3,8",
    "Total | 25,5 | 8,4",
  );
  expect(rows[2]?.fate).toBe("held");
  expect(totals.map(({ meaning, written, read }) => [meaning, written, read])).toEqual([
    ["fresh", 25.5, 22],
    ["dried", 8.4, 7.2],
  ]);
});
