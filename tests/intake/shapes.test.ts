import { expect, test } from "vitest";
import { readLog } from "#server/intake/readLog";
import { columns, line, lines, readLines, sheetOf } from "./readings";

const JUNE = { period: "2031-06" };
const placed = (read: ReturnType<typeof readLog>) => read.rows.map((row) => `${row.sheet}: ${line(row)}`);

test("two logs side by side are read as two tables, totals and all", () => {
  const read = readLines(
    JUNE,
    "Salt Lane",
    "Date | In (kg) | Out (kg) | | Date | In (kg) | Out (kg)",
    "13/6/31 | 10 | 3 | | 14/6/31 | 9 | 2.8",
    " | | | | 15/6/31 | 9 | 2.9",
    "Total | 10 | 3 | | | 18 | 5.7",
  );
  expect(placed(read)).toEqual([
    "Log: 1 set-aside | before-the-table",
    "Log: 2 set-aside | heading-row",
    "Log: 3 counted 2031-06-13 10>3",
    "Log: 4 set-aside | blank-row",
    "Log: 5 set-aside | totals-row",
    "Log (columns E to G): 2 set-aside | heading-row",
    "Log (columns E to G): 3 counted 2031-06-14 9>2.8",
    "Log (columns E to G): 4 counted 2031-06-15 9>2.9",
    "Log (columns E to G): 5 set-aside | totals-row",
  ]);
  expect(read.totals.map(({ at, written, read: sum }) => [at.sheet, at.column, written, sum])).toEqual([
    ["Log", "B", 10, 10],
    ["Log", "C", 3, 3],
    ["Log (columns E to G)", "F", 18, 18],
    ["Log (columns E to G)", "G", 5.7, 5.7],
  ]);
  expect(read.rows[6]?.cells.map(({ column }) => column)).toEqual(["E", "F", "G"]);
  expect(read.notes).toEqual([{ code: "tables-side-by-side", detail: "Log (columns E to G)" }]);
});

test("no two sheets are read under one name", () => {
  const sides = ["Date | In (kg) | Out (kg) | | Date | In (kg) | Out (kg)", "3/6/31 | 10 | 3 | | 4/6/31 | 9 | 2.8"];
  const read = readLog(
    { format: "xlsx", notes: [], sheets: [sheetOf("Log", ...sides), sheetOf("Log (columns E to G)", ...sides)] },
    JUNE,
  );
  const places = read.rows.map(({ sheet, row }) => `${sheet}!${row}`);
  expect(new Set(places).size).toBe(places.length);
  expect(read.counts).toMatchObject({ rows: 8, counted: 4 });
});

test("fuel beside the loads joins their days, also where its headings stand lower", () => {
  const read = readLines(
    JUNE,
    "Date | In (kg) | Out (kg)",
    "13/6/31 | 10 | 3 | | Fuel",
    "14/6/31 | 10 | 3 | | Date | Wood (kg)",
    "15/6/31 | 10 | 3 | | 13/6/31 | 12",
  );
  expect(placed(read).slice(1)).toEqual([
    "Log: 2 counted 2031-06-13 10>3",
    "Log: 3 counted 2031-06-14 10>3",
    "Log: 4 counted 2031-06-15 10>3",
    "Log (columns E to F): 2 set-aside | before-the-table",
    "Log (columns E to F): 3 set-aside | heading-row",
    "Log (columns E to F): 4 counted 2031-06-13 firewood 12kg",
  ]);
});

test("a row that holds a load for each of two pans gives two batches, each from its own columns", () => {
  const read = readLines(
    JUNE,
    "Jour | Poêle A | | Poêle B | | Gaz",
    " | Entrée (kg) | Sortie (kg) | Entrée (kg) | Sortie (kg) | kg",
    "13/6 | 10 | 3,2 | 9 | 2,9 | 1,2",
    "14/6 | 10 | 3,1 | | | 0,6",
    "Total | 20 | 6,3 | 9 | 2,9 | 1,8",
  );
  expect(placed(read)).toEqual([
    "Log: 1 set-aside | heading-row",
    "Log: 2 set-aside | heading-row",
    "Log: 3 counted 2031-06-13 pan A 10>3.2 2031-06-13 lpg 1.2kg",
    "Log: 4 counted 2031-06-14 pan A 10>3.1 2031-06-14 lpg 0.6kg",
    "Log: 5 set-aside | totals-row",
    "Log (columns D to E): 1 set-aside | heading-row",
    "Log (columns D to E): 2 set-aside | heading-row",
    "Log (columns D to E): 3 counted 2031-06-13 pan B 9>2.9",
    "Log (columns D to E): 5 set-aside | totals-row",
  ]);
});

test("groups named after times of the day give two batches and no pan", () => {
  const read = readLines(
    JUNE,
    "Date | Morning | | Afternoon |",
    " | In (kg) | Out (kg) | In (kg) | Out (kg)",
    "13/6/2031 | 10 | 3.2 | 9 | 2.9",
  );
  expect(read.rows.flatMap((row) => (row.batch === null ? [] : [line(row)]))).toEqual([
    "3 counted 2031-06-13 10>3.2",
    "3 counted 2031-06-13 9>2.9",
  ]);
});

test("groups over kg and hour: in and out, start and end", () => {
  const read = readLines(
    JUNE,
    "Date | Entrée | | Sortie | | Gaz",
    " | kg | heure | kg | heure | kg",
    "13/6 | 10 | 8:00 | 3,2 | 9:20 | 0,8",
  );
  expect(columns(read)).toEqual(["A day", "B fresh kg", "C start", "D dried kg", "E end", "F lpg kg"]);
  expect(lines(read)[2]).toBe("3 counted 2031-06-13 10>3.2 80min 2031-06-13 lpg 0.8kg");
});

test("batches in columns: each column is a row of the turned sheet, the column of sums among them", () => {
  const read = readLines(
    JUNE,
    "Old Jetty",
    "Date | 13/6/31 | 14/6/31 | 15/6/31 | Total",
    "Batch | 1 | 2 | 3",
    "In (kg) | 10 | 11 | 12 | 33",
    "Out (kg) | 3 | 3.3 | | 6.3",
    "Minutes | 80 | 85 | 90 | 255",
    "By | Asha | Moses | Asha",
  );
  expect(placed(read)).toEqual([
    "Log (turned): 1 set-aside | heading-row",
    "Log (turned): 2 counted 2031-06-13 #1 10>3 80min",
    "Log (turned): 3 counted 2031-06-14 #2 11>3.3 85min",
    "Log (turned): 4 counted 2031-06-15 #3 12>? 90min | dried-to-come",
    "Log (turned): 5 set-aside | totals-row",
  ]);
  expect(read.totals.map(({ meaning, written, read: sum }) => [meaning, written, sum])).toEqual([
    ["fresh", 33, 33],
    ["dried", 6.3, 6.3],
    ["minutes", 255, 255],
  ]);
});

const LOADS = "Batch no | In (kg) | Out (kg)";
const bookOf = (...sheets: ReturnType<typeof sheetOf>[]) => readLog({ format: "xlsx", sheets, notes: [] }, JUNE);

test.each([
  ["its name", sheetOf("3 June", LOADS, "1 | 10 | 3.1"), sheetOf("Wed 4 June", LOADS, "1 | 10 | 3.2")],
  [
    "a line above",
    sheetOf("A", "Date: 3 June 2031", LOADS, "1 | 10 | 3.1"),
    sheetOf("B", "Date | | 4/6/2031", LOADS, "1 | 10 | 3.2"),
  ],
])("a sheet for each day takes the day from %s", (_, first, second) => {
  const counted = bookOf(first, second).rows.flatMap(({ batch }) => (batch === null ? [] : [batch.day]));
  expect(counted).toEqual(["2031-06-03", "2031-06-04"]);
});

test("a single day above a single table may be the day of the report: it is asked, and the answer counts", () => {
  const log = ["Date: 30 June 2031", LOADS, "1 | 10 | 3.1", "2 | 10 | 3.2"];
  const read = readLines(JUNE, ...log);
  expect(read.counts).toMatchObject({ counted: 0, held: 2 });
  expect(read.questions).toEqual([{ code: "day-of-sheet", sheet: "Log", column: null, choices: ["2031-06-30"] }]);
  const answered = readLines({ ...JUNE, answers: { days: { Log: "2031-06-30" } } }, ...log);
  expect(lines(answered).slice(2)).toEqual(["3 counted 2031-06-30 #1 10>3.1", "4 counted 2031-06-30 #2 10>3.2"]);
  expect(answered.questions).toEqual([]);
});

test("a sheet for each week with a sheet of fuel: fuel joins the days of the loads, and nothing is read twice", () => {
  const read = bookOf(
    sheetOf("Week 1", "Date | In (kg) | Out (kg)", "13/6/31 | 10 | 3", "Total | 10 | 3"),
    sheetOf("Week 2", "Date | In (kg) | Out (kg)", "20/6/31 | 11 | 3.3"),
    sheetOf("Fuel", "Date | Gas (kg) | Firewood (kg)", "13/6/31 | 0.8 |", "20/6/31 | | 4"),
  );
  expect(placed(read)).toEqual([
    "Week 1: 1 set-aside | heading-row",
    "Week 1: 2 counted 2031-06-13 10>3",
    "Week 1: 3 set-aside | totals-row",
    "Week 2: 1 set-aside | heading-row",
    "Week 2: 2 counted 2031-06-20 11>3.3",
    "Fuel: 1 set-aside | heading-row",
    "Fuel: 2 counted 2031-06-13 lpg 0.8kg",
    "Fuel: 3 counted 2031-06-20 firewood 4kg",
  ]);
});
