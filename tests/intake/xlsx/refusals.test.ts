import fc from "fast-check";
import { expect, test } from "vitest";
import { readGrid } from "#server/intake/grid/readGrid";
import type { Bounds } from "#server/terms/row";
import { archiveOf } from "./archiveOf";
import { partsOf, workbookOf } from "./workbookOf";

const BOUNDS: Bounds = { bytes: 1e7, unpackedBytes: 2e7, rows: 100, columns: 8, cellCharacters: 200, sheets: 3 };
const read = (bytes: Uint8Array) => readGrid(bytes, "log.xlsx", BOUNDS);
const SHEET = "xl/worksheets/sheet1.xml";
const ROW = '<row r="1"><c r="A1"><v>1</v></c></row>';
const sheetOf = (xml: string) => workbookOf({}, [{ name: SHEET, content: xml }]);
const rowsOf = (rows: string) => workbookOf({ sheets: [rows] });

test("the workbook that the others are made from is read", () => {
  expect(read(workbookOf({}))).toMatchObject({ format: "xlsx" });
});

const lied = (fields: object) =>
  archiveOf([...partsOf({}), { name: "xl/media/a.png", content: "abcabcabcabc", ...fields }]);

test.each([
  { said: "a part that is encrypted", bytes: lied({ flags: 1 }), refused: "encrypted" },
  { said: "a part packed by an unknown method", bytes: lied({ method: 14 }), refused: "damaged-archive" },
  { said: "a checksum that does not fit", bytes: lied({ crc: 7 }), refused: "damaged-archive" },
  { said: "a part larger than declared", bytes: lied({ unpacked: 3 }), refused: "unpacks-too-large" },
  { said: "a part smaller than declared", bytes: lied({ unpacked: 30 }), refused: "damaged-archive" },
  { said: "a part declared beyond the bound", bytes: lied({ unpacked: 30_000_000 }), refused: "unpacks-too-large" },
  { said: "a size of the 64-bit form", bytes: lied({ unpacked: 0xffffffff }), refused: "damaged-archive" },
  { said: "two names for one part", bytes: lied({ localName: "xl/media/b.png" }), refused: "damaged-archive" },
  { said: "a step upward in a name", bytes: lied({ name: "xl/../../a.png" }), refused: "damaged-archive" },
  { said: "an absolute name", bytes: lied({ name: "/etc/a.png" }), refused: "damaged-archive" },
  { said: "one name twice but for its case", bytes: lied({ name: SHEET.toUpperCase() }), refused: "damaged-archive" },
  { said: "bytes after the archive", bytes: Uint8Array.from([...workbookOf({}), 0]), refused: "damaged-archive" },
  { said: "an archive cut short", bytes: workbookOf({}).subarray(0, 900), refused: "damaged-archive" },
  {
    said: "hundreds of parts",
    bytes: archiveOf(Array.from({ length: 300 }, (_, i) => ({ name: `${i}`, content: "" }))),
    refused: "unpacks-too-large",
  },
  {
    said: "megabytes of spaces",
    bytes: sheetOf(`<worksheet>${" ".repeat(5_000_000)}</worksheet>`),
    refused: "unpacks-too-large",
  },
])("$said is refused as $refused", ({ bytes, refused }) => {
  expect(read(bytes)).toMatchObject({ refused });
});

test("a part that lies inside another one is refused", () => {
  const inner = { name: "b", content: "y", stored: true };
  const bytes = Buffer.from(
    archiveOf([...partsOf({}), { name: "a", content: archiveOf([inner]), stored: true }, inner]),
  );
  const entryOfInner = bytes.lastIndexOf("PK\u0001\u0002");
  const entryOfOuter = bytes.lastIndexOf("PK\u0001\u0002", entryOfInner - 1);
  bytes.writeUInt32LE(bytes.readUInt32LE(entryOfOuter + 42) + 31, entryOfInner + 42); // behind the heading of "a"
  expect(read(bytes)).toEqual({ refused: "damaged-archive", detail: "overlap" });
});

const TYPE = "application/vnd.ms-excel.sheet";

test.each([
  {
    said: "a workbook with macros",
    bytes: workbookOf({ type: `${TYPE}.macroEnabled.main+xml` }),
    refused: "macro-file",
  },
  {
    said: "a macro part under an honest type",
    bytes: workbookOf({}, [{ name: "xl/vbaProject.bin", content: "x" }]),
    refused: "macro-file",
  },
  { said: "a binary workbook", bytes: workbookOf({ type: `${TYPE}.binary.macroEnabled.main` }), refused: "macro-file" },
  {
    said: "a binary workbook without macros",
    bytes: workbookOf({ type: `${TYPE}.binary.main` }),
    refused: "old-spreadsheet",
  },
  {
    said: "an OpenDocument sheet",
    bytes: archiveOf([{ name: "mimetype", content: "application/vnd.oasis.opendocument.spreadsheet", stored: true }]),
    refused: "open-document",
  },
  { said: "any other archive", bytes: archiveOf([{ name: "readme.txt", content: "hello" }]), refused: "not-a-table" },
  { said: "a workbook without sheets", bytes: workbookOf({ sheets: [] }), refused: "not-a-table" },
  {
    said: "sheets in which nothing stands",
    bytes: rowsOf('<row r="1"><c r="A1" s="0"/></row>'),
    refused: "empty-file",
  },
  { said: "more sheets than allowed", bytes: workbookOf({ sheets: [ROW, ROW, ROW, ROW] }), refused: "too-large" },
  { said: "more rows than allowed", bytes: rowsOf("<row><c><v>1</v></c></row>".repeat(101)), refused: "too-many-rows" },
  {
    said: "more columns than allowed",
    bytes: rowsOf(`<row>${"<c><v>1</v></c>".repeat(9)}</row>`),
    refused: "too-many-columns",
  },
  {
    said: "a longer cell than allowed",
    bytes: rowsOf(`<row><c t="str"><v>${"a".repeat(201)}</v></c></row>`),
    refused: "cell-too-long",
  },
  {
    said: "a sheet whose part is missing",
    bytes: archiveOf(partsOf({}).filter((part) => part.name !== SHEET)),
    refused: "damaged-archive",
  },
])("$said is refused as $refused", ({ bytes, refused }) => {
  expect(read(bytes)).toMatchObject({ refused });
});

test.each([
  {
    said: "a document type",
    xml: `<!DOCTYPE worksheet [<!ENTITY a "aaaa">]><worksheet><sheetData>${ROW}</sheetData></worksheet>`,
  },
  {
    said: "an entity nobody declared",
    xml: '<worksheet><sheetData><row><c t="str"><v>&a;</v></c></row></sheetData></worksheet>',
  },
  { said: "an end without a beginning", xml: `<worksheet><sheetData>${ROW}</sheetData></sheet></worksheet>` },
  { said: "a beginning without an end", xml: `<worksheet><sheetData>${ROW}</sheetData>` },
  { said: "an attribute without quotes", xml: "<worksheet><sheetData><row r=1></row></sheetData></worksheet>" },
  { said: "elements far too deep", xml: `<worksheet>${"<a>".repeat(100)}${"</a>".repeat(100)}</worksheet>` },
  { said: "a tag far too long", xml: `<worksheet a="${"a".repeat(70_000)}"/>` },
  { said: "bytes that are not UTF-8", xml: Uint8Array.from([60, 97, 62, 0xff, 60, 47, 97, 62]) },
  {
    said: "a cell outside the sheet",
    xml: '<worksheet><sheetData><row r="1"><c r="ZZZZ1"><v>1</v></c></row></sheetData></worksheet>',
  },
  {
    said: "a row outside the sheet",
    xml: '<worksheet><sheetData><row r="9999999"><c r="A1"><v>1</v></c></row></sheetData></worksheet>',
  },
  { said: "a row that comes twice", xml: `<worksheet><sheetData>${ROW}${ROW}</sheetData></worksheet>` },
  {
    said: "a cell that comes twice",
    xml: '<worksheet><sheetData><row r="1"><c r="A1"><v>1</v></c><c r="A1"><v>2</v></c></row></sheetData></worksheet>',
  },
  {
    said: "a shared text that is missing",
    xml: '<worksheet><sheetData><row r="1"><c r="A1" t="s"><v>4</v></c></row></sheetData></worksheet>',
  },
])("a sheet with $said is refused", ({ xml }) => {
  expect(read(workbookOf({}, [{ name: SHEET, content: xml }]))).toMatchObject({ refused: "damaged-archive" });
});

test("a stray cell in the last corner of a sheet costs neither memory nor the rows before it", () => {
  const rows = `${ROW}<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`;
  expect(read(rowsOf(rows))).toMatchObject({ sheets: [{ rows: [{ row: 1 }, { row: 1_048_576 }] }] });
});

test("no bytes make it throw, and none turn into other values unseen", () => {
  const honest = workbookOf({
    texts: ["<t>Old Jetty</t>"],
    sheets: ['<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><v>3.5</v></c></row>'],
  });
  const cells = JSON.stringify(read(honest));
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.nat(), fc.integer({ min: 1, max: 255 })), { minLength: 1, maxLength: 4 }),
      (changes) => {
        const bytes = Uint8Array.from(honest);
        for (const [at, change] of changes) bytes[at % bytes.length]! ^= change;
        const result = read(bytes);
        if (!("refused" in result)) expect(JSON.stringify(result)).toBe(cells);
      },
    ),
    { numRuns: 1500 },
  );
});
