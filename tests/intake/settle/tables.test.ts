import { expect, test } from "vitest";
import { lines, readLines } from "../readings";

const LOG = [
  "Date | In (kg) | Out (kg)",
  "13/6/2031 | 10 | 3.2",
  "",
  "Day | Fresh kg | Dried kg",
  "13/6/2031 | 99 | 33",
];

test("a table that somebody leaves out does not count, and stays to be read after all", () => {
  expect(readLines({}, ...LOG).counts.counted).toBe(2);
  const without = readLines({ answers: { leftOut: ["Log!4"] } }, ...LOG);
  expect(without.counts.counted).toBe(1);
  expect(without.tables.map(({ headingRow, leftOut }) => [headingRow, leftOut ?? false])).toEqual([
    [1, false],
    [4, true],
  ]);
  expect(without.rows.find(({ row }) => row === 5)?.reasons[0]?.code).toBe("set-aside-by-person");
  const none = readLines({ answers: { leftOut: ["Log!1", "Log!4"] } }, ...LOG);
  expect(none).toMatchObject({ counts: { counted: 0, held: 0 }, questions: [] });
});

test("headings that nobody could find are where a person says, with columns that a person explains", () => {
  const log = ["Ours", "zog | blik | flim", "13/6/2031 | 10 | 3.2", "14/6/2031 | 11 | 3.4"];
  expect(readLines({}, ...log).questions.map(({ code }) => code)).toEqual(["no-table"]);
  const meanings = { "Log!A": "day", "Log!B": "fresh", "Log!C": "dried" } as const;
  const units = { "Log!B": "kg", "Log!C": "kg" };
  const read = readLines({ answers: { headings: { Log: 2 }, meanings, units } }, ...log);
  expect(read.counts).toMatchObject({ counted: 2, held: 0, setAside: 2 });
  expect(read.tables[0]?.columns.map(({ heading }) => heading)).toEqual(["zog", "blik", "flim"]);
});

test("a table without headings is read from its first row on", () => {
  const meanings = { "Log!A": "day", "Log!B": "fresh", "Log!C": "dried" } as const;
  const answers = { headings: { Log: 0 }, meanings, units: { "Log!B": "kg", "Log!C": "kg" } };
  const read = readLines({ answers }, "13/6/2031 | 10 | 3.2", "14/6/2031 | 11 | 3.4");
  expect(lines(read)).toEqual([
    expect.stringMatching(/^1 counted 2031-06-13 10>3.2/),
    expect.stringMatching(/^2 counted 2031-06-14 11>3.4/),
  ]);
  expect(read.tables[0]?.headingRow).toBe(0);
});
