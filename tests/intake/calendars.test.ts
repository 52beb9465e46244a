import { expect, test } from "vitest";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { readLog } from "#server/intake/readLog";
import { lines, readLines } from "./readings";
import { workbookOf } from "./xlsx/workbookOf";

const JUNE = { period: "2031-06" };
const HEADING = "Date | No | In (kg) | Out (kg) | Start | End";
const NIGHTS = [
  HEADING,
  "2/6/2031 | 1 | 10 | 3.2 | 2:00 | 3:30",
  "3/6/2031 | 2 | 10 | 3.3 | 1:10 | 2:40",
  "13/6/2031 | 3 | 9 | 2.9 | 5:30 | 7:00",
];
const starts = (read: ReturnType<typeof readLog>) =>
  read.rows.flatMap(({ batch }) => (batch === null ? [] : [batch.startMinute]));

test("a log whose starts all lie between midnight and six is asked once whether its hours count from dawn", () => {
  const read = readLines(JUNE, ...NIGHTS);
  expect(read.questions).toEqual([{ code: "clock-of-log", sheet: "Log", column: null, choices: ["dawn", "midnight"] }]);
  expect(read.counts.counted).toBe(3);
  expect(starts(read)).toEqual([120, 70, 330]);
});

test("answered, six hours are added to every time that does not say its clock; minutes stay", () => {
  const read = readLines(
    { ...JUNE, answers: { clock: "dawn" } },
    ...NIGHTS,
    "14/6/2031 | 4 | 9 | 2.9 | 8:00 am | 9:00 am",
  );
  expect(starts(read)).toEqual([480, 430, 690, 480]);
  expect(lines(read).slice(1)).toEqual([
    "2 counted 2031-06-02 #1 10>3.2 90min",
    "3 counted 2031-06-03 #2 10>3.3 90min",
    "4 counted 2031-06-13 #3 9>2.9 90min",
    "5 counted 2031-06-14 #4 9>2.9 60min",
  ]);
  expect(read.questions).toEqual([]);
  expect(starts(readLines({ ...JUNE, answers: { clock: "midnight" } }, ...NIGHTS))).toEqual([120, 70, 330]);
});

test("a log that works through the day is not asked", () => {
  const days = [
    HEADING,
    "2/6/2031 | 1 | 10 | 3.2 | 5:00 | 6:30",
    "3/6/2031 | 2 | 10 | 3.3 | 8:10 | 9:40",
    "13/6/2031 | 3 | 9 | 2.9 | 14:00 | 15:00",
  ];
  expect(readLines(JUNE, ...days).questions).toEqual([]);
});

test.each([
  ["four figures", "03/06/2574", "13/06/2574"],
  ["two figures", "03/06/74", "13/06/74"],
  ["the year first", "2574-06-03", "2574-06-13"],
  ["the month in words", "3 June 2574", "13 June 2574"],
])("years of the Buddhist era in %s are held, offered in the common era, and asked about once", (_, first, second) => {
  const log = ["Date | In (kg) | Out (kg)", `${first} | 10 | 3.2`, `${second} | 10 | 3.3`];
  const read = readLines(JUNE, ...log);
  expect(read.counts).toMatchObject({ counted: 0, held: 2 });
  expect(read.rows[1]?.reasons.map(({ code, choices }) => [code, choices?.map(({ put }) => put)])).toEqual([
    ["day-outside-period", ["2031-06-03"]],
  ]);
  expect(read.questions).toEqual([
    { code: "years-of-log", sheet: "Log", column: null, choices: ["buddhist", "common"] },
  ]);
  const answered = readLines({ ...JUNE, answers: { years: "buddhist" } }, ...log);
  expect(lines(answered).slice(1)).toEqual(["2 counted 2031-06-03 10>3.2", "3 counted 2031-06-13 10>3.3"]);
  const denied = readLines({ ...JUNE, answers: { years: "common" } }, ...log);
  expect(denied.counts).toMatchObject({ counted: 0, held: 2 });
  expect(denied.questions).toEqual([]);
});

test("29 February of the Buddhist year 2571 is the leap day of 2028", () => {
  const read = readLines(
    { period: "2028-02", answers: { years: "buddhist" } },
    "Date | In (kg) | Out (kg)",
    "29/02/2571 | 10 | 3.2",
  );
  expect(lines(read)[1]).toBe("2 counted 2028-02-29 10>3.2");
});

// ECMA-376 Part 1, 18.17.4.1: the 1904 system counts from 1 January 1904; 37287 is 1 February 2006.
test("days of a workbook that counts from 1904 are the days that it shows", () => {
  const row = (at: number, serial: number) =>
    `<row r="${at}"><c r="A${at}" s="1"><v>${serial}</v></c><c r="B${at}"><v>10</v></c><c r="C${at}"><v>3.2</v></c></row>`;
  const heading = ["Date", "In (kg)", "Out (kg)"]
    .map((text, at) => `<c r="${"ABC"[at]}1" t="str"><v>${text}</v></c>`)
    .join("");
  const bytes = workbookOf({
    from1904: true,
    formats: [14],
    sheets: [`<row r="1">${heading}</row>${row(2, 37287)}${row(3, 37299)}`],
  });
  const grid = readGrid(bytes, "log.xlsx", {
    bytes: 1e6,
    unpackedBytes: 1e6,
    rows: 100,
    columns: 9,
    cellCharacters: 200,
    sheets: 3,
  });
  if (isUnreadable(grid)) throw new Error(grid.refused);
  expect(lines(readLog(grid, {})).slice(1)).toEqual(["2 counted 2006-02-01 10>3.2", "3 counted 2006-02-13 10>3.2"]);
});

test("a load from 23:20 to 00:40 lasts 80 minutes and belongs to the day of its start", () => {
  const read = readLines(JUNE, HEADING, "13/6/2031 | 1 | 10 | 3.2 | 23:20 | 00:40");
  expect(lines(read)[1]).toBe("2 counted 2031-06-13 #1 10>3.2 80min | midnight-crossed");
});
