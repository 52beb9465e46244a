import fc from "fast-check";
import { writeXlsx } from "hucre";
import { expect, test } from "vitest";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import type { Grid } from "#server/terms/grid";
import type { Bounds } from "#server/terms/row";
import { type WorkbookMade, workbookOf } from "./workbookOf";

const BOUNDS: Bounds = {
  bytes: 10_485_760,
  unpackedBytes: 67_108_864,
  rows: 20_000,
  columns: 512,
  cellCharacters: 32_767,
  sheets: 40,
};

function gridOf(bytes: Uint8Array): Grid {
  const grid = readGrid(bytes, "log.xlsx", BOUNDS);
  if (isUnreadable(grid)) throw new Error(`refused: ${grid.refused} ${grid.detail}`);
  return grid;
}

const texts = (grid: Grid, sheet = 0) =>
  (grid.sheets[sheet]?.rows ?? []).map((row) => [row.row, ...row.cells.map((cell) => cell.text)]);
const cellsOf = (made: WorkbookMade) => gridOf(workbookOf(made)).sheets[0]?.rows[0]?.cells ?? [];

// Source: ECMA-376 part 1, 18.17.4.1: in the 1900 system 59 is 28 February 1900, 60 the 29th that never was, 61 is 1 March.
test.each([
  { serial: 59, text: "1900-02-28" },
  { serial: 60, text: "1900-02-29" },
  { serial: 61, text: "1900-03-01" },
  { serial: 38749, text: "2006-02-01" },
  { serial: 46094.5, text: "2026-03-13 12:00" },
])("day serial $serial is $text", ({ serial, text }) => {
  const made = { formats: [14], sheets: [`<row r="1"><c r="A1" s="1"><v>${serial}</v></c></row>`] };
  expect(cellsOf(made)).toEqual([{ text, kind: "day", value: serial }]);
});

test("a day of the 1904 system is moved to the 1900 system, a plain number is not", () => {
  // Source: ECMA-376 part 1, 18.17.4.1: 37287 of the 1904 system is 1 February 2006, which is 38749 of the 1900 system
  const sheets = ['<row r="1"><c r="A1" s="1"><v>37287</v></c><c r="B1"><v>37287</v></c></row>'];
  const grid = gridOf(workbookOf({ formats: [14], from1904: true, sheets }));
  expect(grid.sheets[0]?.rows[0]?.cells).toEqual([
    { text: "2006-02-01", kind: "day", value: 38749 },
    { text: "37287", kind: "number", value: 37287 },
  ]);
  expect(grid.notes).toContainEqual({ code: "dates-from-1904", detail: "" });
});

test.each([
  { format: 0, kind: "number", text: "0.5" },
  { format: 10, kind: "number", text: "0.5" },
  { format: 20, kind: "time", text: "12:00" },
  { format: 46, kind: "time", text: "12:00" },
  { format: "[h]:mm", kind: "time", text: "12:00" },
  { format: "h:mm AM/PM", kind: "time", text: "12:00" },
  { format: "dd/mm/yyyy hh:mm", kind: "time", text: "12:00" },
  { format: '0.0" kg/day"', kind: "number", text: "0.5" },
  { format: "0.00\\ \\d", kind: "number", text: "0.5" },
  { format: "[Red]0.0;[Red]-0.0", kind: "number", text: "0.5" },
  { format: "#,##0.00_);(#,##0.00)", kind: "number", text: "0.5" },
])("half a day in the format $format is a $kind", ({ format, kind, text }) => {
  const made = { formats: [format], sheets: ['<row r="1"><c r="A1" s="1"><v>0.5</v></c></row>'] };
  expect(cellsOf(made)).toEqual([{ text, kind, value: 0.5 }]);
});

test.each([
  { said: "a shared text", cell: '<c t="s"><v>0</v></c>', read: { text: "Old Jetty", kind: "text", value: null } },
  {
    said: "a text in its place",
    cell: '<c t="inlineStr"><is><r><t>Old </t></r><r><t>Jetty</t></r></is></c>',
    read: { text: "Old Jetty", kind: "text", value: null },
  },
  {
    said: "a formula's text",
    cell: '<c t="str"><f>A1</f><v>a &amp; b</v></c>',
    read: { text: "a & b", kind: "text", value: null },
  },
  {
    said: "a formula's number",
    cell: "<c><f>B1*2</f><v>3.5</v></c>",
    read: { text: "3.5", kind: "number", value: 3.5 },
  },
  {
    said: "a formula never worked out",
    cell: "<c><f>B1*2</f></c>",
    read: { text: "=B1*2", kind: "error", value: null },
  },
  {
    said: "a formula's error",
    cell: '<c t="e"><f>B1/0</f><v>#DIV/0!</v></c>',
    read: { text: "#DIV/0!", kind: "error", value: null },
  },
  { said: "yes", cell: '<c t="b"><v>1</v></c>', read: { text: "TRUE", kind: "true-false", value: null } },
  {
    said: "a day in ISO 8601",
    cell: '<c t="d"><v>2006-02-01</v></c>',
    read: { text: "2006-02-01", kind: "day", value: 38749 },
  },
  {
    said: "a number with an exponent",
    cell: "<c><v>1E-7</v></c>",
    read: { text: "0.0000001", kind: "number", value: 1e-7 },
  },
  {
    said: "a number written too long",
    cell: "<c><v>4.5499999999999998</v></c>",
    read: { text: "4.55", kind: "number", value: 4.55 },
  },
  { said: "no finite number", cell: "<c><v>1e400</v></c>", read: { text: "1e400", kind: "text", value: null } },
  {
    said: "an escaped line end",
    cell: '<c t="inlineStr"><is><t>a_x000A_b</t></is></c>',
    read: { text: "a\nb", kind: "text", value: null },
  },
  {
    said: "marked text",
    cell: '<c t="inlineStr"><is><t>a<![CDATA[<b>]]>c</t></is></c>',
    read: { text: "a<b>c", kind: "text", value: null },
  },
])("$said is read as $read.text", ({ cell, read }) => {
  expect(cellsOf({ texts: ["<t>Old Jetty</t>"], sheets: [`<row>${cell}</row>`] })).toEqual([read]);
});

test("cells and rows without a place follow the one before, those out of order are sorted, and gaps stay", () => {
  const sheets = [
    '<row r="7"><c r="C7"><v>3</v></c><c><v>4</v></c></row><row><c><v>5</v></c></row><row r="2"><c r="A2"><v>1</v></c></row>',
  ];
  expect(texts(gridOf(workbookOf({ sheets })))).toEqual([
    [2, "1"],
    [7, "", "", "3", "4"],
    [8, "5"],
  ]);
});

test("elements with a prefix are read like those without", () => {
  const content =
    '<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>3.5</x:v></x:c></x:row></x:sheetData></x:worksheet>';
  expect(texts(gridOf(workbookOf({}, [{ name: "xl/worksheets/sheet1.xml", content }])))).toEqual([[1, "3.5"]]);
});

test("hidden sheets are read and marked, sheets keep the order of their tabs", () => {
  const row = (value: number) => `<row r="1" hidden="1"><c r="A1"><v>${value}</v></c></row>`;
  const grid = gridOf(workbookOf({ sheets: [row(1), row(2)], states: ["veryHidden", "visible"] }));
  expect(grid.sheets.map(({ name, hidden }) => [name, hidden])).toEqual([
    ["Week 1", true],
    ["Week 2", false],
  ]);
  expect(grid.notes).toContainEqual({ code: "hidden-sheet", detail: "Week 1" });
  expect(grid.notes).toContainEqual({ code: "hidden-rows", detail: "Week 2: 1" });
});

test("a merged cell gives its value to its first row alone", () => {
  const rows =
    '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>2</v></c></row><row r="2"><c r="A2"/><c r="B2"><v>3</v></c></row>';
  expect(texts(gridOf(workbookOf({ sheets: [rows] })))).toEqual([
    [1, "1", "2"],
    [2, "", "3"],
  ]);
});

test("what another program wrote is read back: texts and numbers, whatever they are", async () => {
  const cell = fc.oneof(
    fc.string({ unit: "grapheme-ascii", minLength: 1, maxLength: 8 }).filter((text) => text.trim() !== ""),
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.integer(),
  );
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 5 }),
      async (rows) => {
        const grid = gridOf(new Uint8Array(await writeXlsx({ sheets: [{ name: "Log", rows }] })));
        const read = grid.sheets[0]?.rows.map((row) => row.cells.map((one) => one.value ?? one.text));
        expect(read).toEqual(rows.map((row) => row.map((one) => (one === 0 ? 0 : one))));
      },
    ),
    { numRuns: 150 },
  );
});
