import { expect, test } from "vitest";
import { readLog } from "#server/intake/readLog";
import type { RowRead } from "#server/terms/row";
import { columns, gridOf, line, lines, readFile, readLines, sheetOf } from "./readings";

test("an English log of loads is read row by row, with preamble, idle day, fuel-only row, total and signature", () => {
  const read = readFile("english-loads.csv");
  expect(columns(read)).toEqual([
    "A day",
    "B batch-number",
    "C fresh kg",
    "D dried kg",
    "E start",
    "F end",
    "G lpg kg",
    "H operator",
    "I remarks",
  ]);
  expect(lines(read)).toEqual([
    "1 set-aside | before-the-table",
    "2 set-aside | before-the-table",
    "4 set-aside | heading-row",
    "5 counted 2031-06-03 #001 10>3.3 95min 2031-06-03 lpg 0.8kg",
    "6 counted 2031-06-03 #002 10>3.2 90min 2031-06-03 lpg 0.75kg",
    "7 counted 2031-06-04 #003 12>3.9 80min 2031-06-04 lpg 0.9kg | midnight-crossed",
    "8 counted 2031-06-04 #004 8>? 75min | dried-to-come",
    "9 counted 2031-06-14 #005 10>? 90min 2031-06-14 lpg 0.8kg | dried-missing",
    "11 set-aside | nothing-produced-row",
    "12 held 2031-06-16 #006 10>11.2 90min 2031-06-16 lpg 0.8kg | out-more-than-in",
    "13 counted 2031-06-17 #007 3.5>1.1 50min 2031-06-17 lpg 0.4kg",
    "14 counted 2031-06-18 lpg 1.2kg",
    "15 set-aside | totals-row",
    "16 set-aside | after-the-table",
  ]);
  expect(read.totals.map(({ meaning, written, read: sum }) => [meaning, written, sum])).toEqual([
    ["fresh", 63.5, 63.5],
    ["dried", 22.7, 22.7],
  ]);
  expect(read.counts).toEqual({ rows: 14, counted: 7, held: 1, setAside: 6 });
  expect(read.questions).toEqual([]);
});

test("a waiting dried weight is to come; one that the log gives up is not", () => {
  const batches = readFile("english-loads.csv").rows.map(({ batch }) => batch);
  const toCome = (number: string) => batches.find((batch) => batch?.number === number)?.driedToCome;
  expect([toCome("004"), toCome("005"), toCome("001")]).toEqual([true, false, false]);
});

test("raw text of measured cells is kept, and names, remarks and what is not understood go to the sealed store", () => {
  const row = readFile("english-loads.csv").rows.find((one) => one.row === 7);
  expect(row?.cells).toEqual([
    { column: "A", meaning: "day", text: "04/06/2031" },
    { column: "B", meaning: "batch-number", text: "003" },
    { column: "C", meaning: "fresh", text: "12.0" },
    { column: "D", meaning: "dried", text: "3.90" },
    { column: "E", meaning: "start", text: "23:20" },
    { column: "F", meaning: "end", text: "00:40" },
    { column: "G", meaning: "lpg", text: "0.9" },
  ]);
  expect(row?.sealed).toEqual([
    { column: "H", heading: "By", text: "Moses" },
    { column: "I", heading: "Remarks", text: "late start, rain" },
  ]);
  const signature = readFile("english-loads.csv").rows.at(-1);
  expect(signature?.sealed.map(({ text }) => text)).toEqual(["Checked by:", "Moses Tembo"]);
});

test("a French day tally under a two-row heading, with decimal commas and weekdays", () => {
  const read = readFile("french-tally.csv");
  expect(columns(read)).toEqual(["A day", "B loads", "C fresh kg", "D dried kg", "E lpg kg", "F remarks"]);
  expect(read.tables[0]).toMatchObject({ headingRow: 3, dayOrder: "dmy" });
  expect(lines(read)).toEqual([
    "1 set-aside | before-the-table",
    "2 set-aside | heading-row",
    "3 set-aside | heading-row",
    "4 counted 2031-06-02 18>5.9 site-day of 18 2031-06-02 lpg 1.25kg",
    "5 counted 2031-06-03 17>5.6 site-day of 17 2031-06-03 lpg 1.18kg",
    "6 set-aside | nothing-produced-row",
    "7 counted 2031-06-05 18>? site-day of 18 2031-06-05 lpg 1.3kg | dried-to-come",
    "8 counted 2031-06-06 16>5.2 site-day of 16 2031-06-06 lpg cylinder x1",
    "9 set-aside | totals-row",
    "10 set-aside | totals-row",
  ]);
  expect(read.totals.map(({ meaning, written, read: sum }) => [meaning, written, sum])).toEqual([
    ["fresh", 69, 69],
    ["dried", 16.7, 16.7],
    ["loads", 69, 69],
  ]);
});

test("days written once a day, ditto marks, grams, and a month-first order that one cell decides", () => {
  const read = readFile("tab-once-a-day.tsv", { period: "2031-06" });
  expect(read.tables[0]?.dayOrder).toBe("mdy");
  expect(lines(read)).toEqual([
    "1 set-aside | before-the-table",
    "2 set-aside | heading-row",
    "3 counted 2031-06-02 pan A 1>0.32 18min",
    "4 counted 2031-06-02 pan A 1>0.32 17min",
    "5 counted 2031-06-02 pan A 1.02>0.33 80min | repeated-by-ditto",
    "6 held 2031-06-13 pan A 0.98>0.31 | unit-from-cell minutes-unclear",
    "7 counted 2031-06-13 pan B 1.005>0.31 19min | repeated-by-ditto",
  ]);
  expect(read.rows.map(({ batch }) => batch?.harvest)).toEqual([
    undefined,
    undefined,
    "H12",
    "H12",
    "H12",
    "H13",
    "H13",
  ]);
});

test("dried weights in a file of their own are read as such", () => {
  expect(lines(readFile("dried-weights.csv"))).toEqual([
    "1 set-aside | heading-row",
    "2 counted 2031-06-05 #004 ?>2.6 dried only | fresh-missing",
    "3 counted 2031-06-20 #008 ?>3.1 dried only | fresh-missing",
  ]);
});

test("a month whose last dried weight is written as 3300 g is read whole", () => {
  const read = readFile("month-g.csv");
  expect(lines(read)).toEqual([
    "1 set-aside | heading-row",
    "2 counted 2031-06-02 #b1 10>3.3 95min 2031-06-02 lpg gross 27.4>?",
    "3 counted 2031-06-03 #b2 10>3.2 90min",
    "4 counted 2031-06-04 #b3 12>3.9 110min",
    "5 counted 2031-06-05 #b4 8>2.8 75min",
    "6 counted 2031-06-06 #b5 10>? 90min | dried-missing",
    "7 counted 2031-06-07 #b6 10>3.3 92min 2031-06-07 lpg gross ?>22.45 | unit-from-cell",
  ]);
  const batches = read.rows.flatMap(({ batch }) => (batch === null ? [] : [batch]));
  const both = batches.filter(({ dried }) => dried !== null);
  const sum = (of: typeof batches, which: "fresh" | "dried" | "minutes") =>
    of.reduce((kg, batch) => kg + (batch[which]?.value ?? 0), 0);
  expect([sum(both, "fresh"), sum(both, "dried"), sum(batches, "fresh"), sum(batches, "minutes")]).toEqual([
    50, 16.5, 60, 552,
  ]);
});

test("the same weight as a bare 3300 is held, with what a repair of either weight would give", () => {
  const row = readFile("month-g-raw.csv").rows.find(({ batch }) => batch?.number === "b6");
  expect(row?.fate).toBe("held");
  expect(row?.reasons.map(({ code, at, text, choices }) => [code, at.column, text, choices])).toEqual([
    ["unit-slip-suspected", "D", "3300", [{ put: "3.3 kg", yieldThen: 0.33 }]],
    ["unit-slip-suspected", "C", "10.0", [{ put: "10000 kg", yieldThen: 0.33 }]],
  ]);
});

test("weights without any unit are held and asked about once a column", () => {
  const read = readFile("no-units.csv");
  expect(read.counts).toEqual({ rows: 4, counted: 0, held: 3, setAside: 1 });
  expect(read.questions).toEqual([
    { code: "column-unit", sheet: "no-units", column: "B", choices: ["kg", "g", "lb"] },
    { code: "column-unit", sheet: "no-units", column: "C", choices: ["kg", "g", "lb"] },
    { code: "decimal-mark", sheet: "no-units", column: "B", choices: [".", ","] },
  ]);
});

test("what the site declared fills a missing unit, row by row, and breaks the tie of the decimal mark", () => {
  const read = readFile("no-units.csv", { period: "2031-06", massUnit: "kg", decimalMark: "." });
  expect(lines(read).slice(1)).toEqual([
    "2 counted 2031-06-03 10>3.3 | unit-from-site unit-from-site",
    "3 counted 2031-06-04 12>3.9 | unit-from-site unit-from-site",
    "4 counted 2031-06-05 8.5>2.8 | unit-from-site unit-from-site",
  ]);
});

test("repeated headings, a units row, a subtotal, a total without a word and mixed decimal marks", () => {
  const read = readFile("repeated-headings.csv", { period: "2031-06", fuel: "firewood" });
  expect(columns(read)).toEqual([
    "A day",
    "B batch-number",
    "C fresh kg",
    "D dried kg",
    "E minutes min",
    "F fuel-amount kg",
    "G remarks",
  ]);
  expect(lines(read)).toEqual([
    "1 set-aside | before-the-table",
    "2 set-aside | heading-row",
    "3 set-aside | units-row",
    "4 counted 2031-06-01 #1 2>0.64 35min 2031-06-01 firewood 1.5kg",
    "5 counted 2031-06-01 #2 2>0.66 35min 2031-06-01 firewood 1.4kg",
    "6 counted 2031-06-01 #3 2>0.65 | repeated-by-ditto minutes-missing",
    "7 set-aside | totals-row",
    "8 set-aside | heading-row",
    "9 counted 2031-06-02 #1 2.1>0.7 36min 2031-06-02 firewood 1.5kg",
    "10 counted 2031-06-02 #2 2.2>0.71 36min 2031-06-02 firewood 1.5kg",
    "11 counted 2031-06-13 #1 2>0.66 350min 2031-06-13 firewood 1.2kg",
    "12 set-aside | totals-row",
  ]);
  expect(read.totals.map(({ meaning, written, read: sum }) => [meaning, written, sum])).toEqual([
    ["fresh", 6, 6],
    ["dried", 1.95, 1.95],
    ["fuel-amount", 2.9, 2.9],
    ["fresh", 12.3, 12.3],
    ["dried", 4.02, 4.02],
  ]);
});

test.each([
  [
    "Spanish",
    "Fecha | N° tanda | Entrada (kg) | Salida (kg) | Duración (min) | Leña (kg) | Responsable",
    "13 de junio | 4 | 10,5 | 3,4 | 80 | 12 | Inés",
    "Suma | | 10,5 | 3,4",
  ],
  [
    "Portuguese",
    "Data | Fornada | Entrada (kg) | Saída (kg) | Tempo (min) | Lenha (kg) | Responsável",
    "13 junho | 4 | 10,5 | 3,4 | 80 | 12 | Inês",
    "Soma | | 10,5 | 3,4",
  ],
  [
    "Swahili",
    "Tarehe | Namba ya bechi | Kilo ingizo (kg) | Kilo toleo (kg) | Dakika | Kuni (kg) | Mhusika",
    "13 Juni | 4 | 10.5 | 3.4 | 80 | 12 | Neema",
    "Jumla | | 10.5 | 3.4",
  ],
  [
    "Indonesian",
    "Tanggal | No batch | Masuk (kg) | Keluar (kg) | Lama (menit) | Kayu bakar (kg) | Petugas",
    "13 Juni | 4 | 10,5 | 3,4 | 80 | 12 | Dewi",
    "Jumlah | | 10,5 | 3,4",
  ],
])("a %s log is read by its own words", (_, heading, row, total) => {
  const read = readLines({ period: "2031-06" }, heading, row, total);
  expect(columns(read)).toEqual([
    "A day",
    "B batch-number",
    "C fresh kg",
    "D dried kg",
    "E minutes min",
    "F firewood kg",
    "G operator",
  ]);
  expect(lines(read)).toEqual([
    "1 set-aside | heading-row",
    "2 counted 2031-06-13 #4 10.5>3.4 80min 2031-06-13 firewood 12kg",
    "3 set-aside | totals-row",
  ]);
});

test("a fuel whose kind nobody names is asked about once and holds its rows", () => {
  const read = readFile("repeated-headings.csv");
  expect(read.questions.map(({ code, column }) => [code, column])).toEqual([["column-meaning", "F"]]);
  expect(line(read.rows[3] as RowRead)).toBe("4 held 2031-06-01 #1 2>0.64 35min | fuel-type-unknown");
});

test("a sheet of fuel alone gives fuel on its days", () => {
  expect(lines(readFile("fuel-sheet.csv", { period: "2031-06", containers: { sac: 30 } }))).toEqual([
    "1 set-aside | heading-row",
    "2 counted 2031-06-02 firewood 14.5kg 2031-06-02 charcoal 60kg 2031-06-02 electricity 3.2kWh",
    "3 counted 2031-06-03 firewood 12kg 2031-06-03 lpg cylinder x1",
    "4 held | fuel-negative",
  ]);
  expect(line(readFile("fuel-sheet.csv").rows[1] as RowRead)).toContain("container-without-weight");
});

test("every sheet is read; hidden ones and those without a table are set aside", () => {
  const read = readLog(
    {
      format: "xlsx",
      sheets: [
        sheetOf("June", "Date | In (kg) | Out (kg)", "2031-06-02 | 10 | 3.2"),
        { ...sheetOf("Old", "Date | In (kg) | Out (kg)", "2031-05-02 | 10 | 3.2"), hidden: true },
        sheetOf("3 June 2031", "Batch no | In (kg) | Out (kg)", "1 | 10 | 3.1"),
        sheetOf("Contacts", "Amina | 0700"),
      ],
      notes: [],
    },
    {},
  );
  expect(read.rows.map((row) => `${row.sheet}: ${line(row)}`)).toEqual([
    "June: 1 set-aside | heading-row",
    "June: 2 counted 2031-06-02 10>3.2",
    "Old: 1 set-aside | hidden-sheet",
    "Old: 2 set-aside | hidden-sheet",
    "3 June 2031: 1 set-aside | heading-row",
    "3 June 2031: 2 counted 2031-06-03 #1 10>3.1",
    "Contacts: 1 set-aside | no-table-in-sheet",
  ]);
});

test("a file without a table is asked about, and all of its rows are set aside", () => {
  const read = readLog(gridOf("Name | Phone | Village", "Amina | 1 | x"), {});
  expect(read.questions).toEqual([{ code: "no-table", sheet: "Log", column: null, choices: [] }]);
  expect(read.counts).toEqual({ rows: 2, counted: 0, held: 0, setAside: 2 });
});

test("a preamble that names a date and batches is no heading when a better one follows", () => {
  const log = [
    "Date | 30 June | Batches | twelve",
    "Site | Weir House",
    "Date | Batch no | In (kg) | Out (kg)",
    "13/6/31 | 1 | 10 | 3",
  ];
  expect(lines(readLines({}, ...log))).toEqual([
    "1 set-aside | before-the-table",
    "2 set-aside | before-the-table",
    "3 set-aside | heading-row",
    "4 counted 2031-06-13 #1 10>3",
  ]);
});

test("a total that differs from its rows is told with both numbers", () => {
  const read = readLines(
    {},
    "Date | In (kg) | Out (kg) | LPG (kg) | Minutes",
    "13/6/31 | 10 | 3 | 0.1 | 80",
    "14/6/31 | 10 | 3.1 | 0.2 | 85",
    "Total | 30 | 6.1 | 0.3 | 165",
  );
  expect(read.totals.map(({ at, meaning, written, read: sum }) => [at.column, meaning, written, sum])).toEqual([
    ["B", "fresh", 30, 20],
    ["C", "dried", 6.1, 6.1],
    ["E", "minutes", 165, 165],
    ["D", "lpg", 0.3, 0.3],
  ]);
});

test("answers win: a meaning, a unit, a cell, a row set aside", () => {
  const log = [
    "Date | Crates of larvae | Dry (kg) | Fresh",
    "2031-06-02 | 4 | 3.3x | 10",
    "2031-06-03 | 4 | 3.2 | 10",
    "2031-06-04 | 4 | 9 | 10",
  ];
  const before = readLines({}, ...log);
  expect(before.counts).toMatchObject({ counted: 0, held: 3 });
  const answers = {
    units: { "Log!D": "kg" },
    meanings: { "Log!B": "ignore" as const },
    cells: { "Log!C2": "3.3 kg", "Log!C4": "9 kg" },
    setAside: ["Log!3"],
  };
  const read = readLines({ answers }, ...log);
  expect(lines(read)).toEqual([
    "1 set-aside | heading-row",
    "2 counted 2031-06-02 10>3.3 | unit-from-cell",
    "3 set-aside | set-aside-by-person",
    "4 counted 2031-06-04 10>9 | unit-from-cell yield-unusual",
  ]);
  expect(read.rows[1]?.cells.find(({ column }) => column === "C")?.text).toBe("3.3x");
});

test("“3.500” beside 10 kg is offered as 3.5 kg with a yield of 0.35 and as 3500 kg", () => {
  const [, row] = readLines({}, "Date | In (kg) | Out (kg)", "2031-06-02 | 10 | 3.500").rows;
  expect(row?.reasons[0]).toMatchObject({
    code: "mass-decimal-unclear",
    text: "3.500",
    choices: [
      { put: "3.5 kg", yieldThen: 0.35 },
      { put: "3500 kg", yieldThen: 350 },
    ],
  });
});
