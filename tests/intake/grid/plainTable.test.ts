import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { plainTable } from "#server/intake/grid/plainTable";
import { isUnreadable } from "#server/intake/grid/readGrid";
import type { Bounds } from "#server/terms/row";

const FILES = join(import.meta.dirname, "../../files/grid");
const BOUNDS: Bounds = {
  bytes: 1e7,
  unpackedBytes: 1e7,
  rows: 20_000,
  columns: 512,
  cellCharacters: 32_767,
  sheets: 40,
};

function csvOfText(text: string): string {
  const table = plainTable(new TextEncoder().encode(text), "log.csv", BOUNDS);
  if (isUnreadable(table)) throw new Error(`refused: ${table.refused}`);
  return table.csv.replaceAll("\r\n", "\n");
}

test.each(readdirSync(join(FILES, "sent")))("the table of %s is found", (name) => {
  const wanted = readFileSync(join(FILES, "tables", name.replace(".txt", ".csv")), "utf8");
  expect(csvOfText(readFileSync(join(FILES, "sent", name), "utf8"))).toBe(wanted);
});

test("an empty file is an empty table, and a picture is refused", () => {
  expect(plainTable(new Uint8Array(), "log.csv", BOUNDS)).toEqual({ csv: "" });
  expect(plainTable(Uint8Array.from([0x89, 0x50, 0x4e, 0x47]), "log.csv", BOUNDS)).toMatchObject({
    refused: "picture",
  });
});

test("a heading alone is a table without records", () => {
  expect(csvOfText('Date,Pan,"Fresh, kg"\n')).toBe('Date,Pan,"Fresh, kg"\n');
});

test("the second of two tables of like size is left out, also when it is a copy under the same heading", () => {
  const rows = "2031-06-03,1,3.5\n2031-06-04,2,3.2\n";
  const first = `Date,Pan,Fresh kg\n${rows}`;
  expect(csvOfText(`${first}${first}`)).toBe(first);
  expect(csvOfText(`${first}Day,Pan,Fresh kg,Note\n2031-06-05,1,3.5,\n2031-06-06,1,3.5,\n`)).toBe(first);
});

test("a row that holds more than the table is kept whole", () => {
  expect(csvOfText("Date,Pan\n2031-06-03,1\n2031-06-04,2,wet sand\n2031-06-05,1\n")).toContain(
    "2031-06-04,2,wet sand\n",
  );
});

const site = fc.constantFrom("Old Jetty", "Salt Lane, east", 'the "red" kiln', "Palmgrove", "Weir House");
const record = fc.tuple(
  fc.integer({ min: 10, max: 28 }).map((day) => `2031-06-${day}`),
  site,
  fc.integer({ min: 100, max: 999 }).map((grams) => (grams / 100).toFixed(2)),
);

test("one table comes out whatever delimiter and record end it was written with", () => {
  fc.assert(
    fc.property(
      fc.array(record, { minLength: 3, maxLength: 20 }),
      fc.constantFrom(",", ";", "\t", "|", "||", ", ", "~|~", "^", "\u001f"),
      fc.constantFrom("\n", "\r\n", "\r"),
      (records, delimiter, end) => {
        const quoted = (cell: string) => (/[",;|^]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
        const write = (by: string, last: string) =>
          [["Date", "Site", "Fresh kg"], ...records].map((row) => row.map(quoted).join(by) + last).join("");
        expect(csvOfText(write(delimiter, end)), JSON.stringify(delimiter)).toBe(csvOfText(write(",", "\n")));
      },
    ),
    { numRuns: 300 },
  );
});

test("no bytes make it throw", () => {
  const sent = readdirSync(join(FILES, "sent")).map((name) => readFileSync(join(FILES, "sent", name)));
  fc.assert(
    fc.property(
      fc.constantFrom(...sent),
      fc.array(fc.tuple(fc.nat(), fc.constantFrom(0, 9, 10, 13, 34, 39, 44, 59, 92, 124, 200, 255)), { maxLength: 12 }),
      (bytes, changes) => {
        const changed = Uint8Array.from(bytes);
        for (const [at, byte] of changes) changed[at % changed.length] = byte;
        expect(() => plainTable(changed, "log.csv", BOUNDS)).not.toThrow();
      },
    ),
    { numRuns: 1500 },
  );
});
