import fc from "fast-check";
import { expect, test } from "vitest";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import type { Grid } from "#server/terms/grid";
import type { Bounds } from "#server/terms/row";

const BOUNDS: Bounds = {
  bytes: 10_485_760,
  unpackedBytes: 67_108_864,
  rows: 20_000,
  columns: 512,
  cellCharacters: 32_767,
  sheets: 40,
};

function gridOf(text: string): Grid {
  const grid = readGrid(new TextEncoder().encode(text), "June.csv", BOUNDS);
  if (isUnreadable(grid)) throw new Error(`refused: ${grid.refused} ${grid.detail}`);
  return grid;
}

test("a plain log becomes one sheet named after the file, numbered by record", () => {
  const grid = gridOf("Date,Pan,Fresh kg\n2031-06-03,1,3.5\n\n2031-06-04,2,3.2\n");
  expect(grid.sheets.map((sheet) => sheet.name)).toEqual(["June"]);
  expect(grid.sheets[0]?.rows.map((row) => [row.row, row.cells.map((cell) => cell.text)])).toEqual([
    [1, ["Date", "Pan", "Fresh kg"]],
    [2, ["2031-06-03", "1", "3.5"]],
    [4, ["2031-06-04", "2", "3.2"]],
  ]);
  expect(grid.notes).toContainEqual({ code: "blank-rows", detail: "1" });
});

test.each([
  { said: "nothing at all", bytes: [], refused: "empty-file" },
  { said: "a byte order mark alone", bytes: [0xef, 0xbb, 0xbf], refused: "empty-file" },
  { said: "spaces and line ends", bytes: [32, 32, 13, 10, 32], refused: "empty-file" },
  { said: "zero bytes", bytes: new Array(400).fill(0), refused: "not-text" },
  { said: "a PNG picture", bytes: [0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10], refused: "picture" },
  { said: "a PDF", bytes: [...new TextEncoder().encode("%PDF-1.7\n")], refused: "pdf" },
  { said: "JSON", bytes: [...new TextEncoder().encode('{"rows": []}')], refused: "not-a-table" },
  { said: "markup", bytes: [...new TextEncoder().encode("<html><table>")], refused: "not-a-table" },
  { said: "a compound file", bytes: [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], refused: "old-spreadsheet" },
  { said: "an empty archive", bytes: [0x50, 0x4b, 5, 6, ...new Array(18).fill(0)], refused: "damaged-archive" },
])("$said is refused as $refused", ({ bytes, refused }) => {
  expect(readGrid(Uint8Array.from(bytes), "x.csv", BOUNDS)).toMatchObject({ refused });
});

test.each([
  { bound: { bytes: 10 }, refused: "too-large" },
  { bound: { rows: 2 }, refused: "too-many-rows" },
  { bound: { columns: 1 }, refused: "too-many-columns" },
  { bound: { cellCharacters: 4 }, refused: "cell-too-long" },
])("more than $bound is refused as $refused", ({ bound, refused }) => {
  const bytes = new TextEncoder().encode("Date,Pan\n2031-06-03,1\n2031-06-04,2\n");
  expect(readGrid(bytes, "x.csv", { ...BOUNDS, ...bound })).toMatchObject({ refused });
});

test("no bytes make it throw", () => {
  fc.assert(
    fc.property(
      fc.uint8Array({ maxLength: 200 }),
      fc.constantFrom("", "PK\u0003\u0004", "a,b\n1,2\n", "\u00ff\u00fe"),
      (bytes, start) => {
        const whole = Uint8Array.from([...start].map((c) => c.charCodeAt(0)).concat(...bytes));
        expect(() => readGrid(whole, "x", BOUNDS)).not.toThrow();
      },
    ),
    { numRuns: 2000 },
  );
});

test("ragged rows, quotes and decisions on the way are told in the notes", () => {
  const grid = gridOf(
    'Date;Pan;Note\n2031-06-03;1;"open\n2031-06-04;2;"12" pan"\n2031-06-05\n2031-06-06;1;fine;more\n',
  );
  expect(grid.sheets[0]?.rows.map((row) => row.cells.map((cell) => cell.text))).toEqual([
    ["Date", "Pan", "Note"],
    ["2031-06-03", "1", '"open'],
    ["2031-06-04", "2", '12" pan'],
    ["2031-06-05"],
    ["2031-06-06", "1", "fine", "more"],
  ]);
  expect(grid.notes).toEqual([
    { code: "delimiter", detail: ";" },
    { code: "unclosed-quote-read-as-text", detail: "2" },
    { code: "stray-quotes-kept", detail: "1" },
  ]);
});

test("empty records and empty cells are blank, and spaces stay as they are written", () => {
  const rows = gridOf("Date,Pan,Note\n,,\n 2031-06-03 ,,  \n").sheets[0]?.rows;
  expect(rows?.[1]?.row).toBe(3);
  expect(rows?.[1]?.cells).toEqual([
    { text: " 2031-06-03 ", kind: "text", value: null },
    { text: "", kind: "blank", value: null },
    { text: "  ", kind: "blank", value: null },
  ]);
});
