import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { expect, test } from "vitest";
import { csvHead, csvRows } from "#server/evidence/csv";
import { readCsv } from "#server/evidence/readCsv";
import type { Column, Kind, Value } from "#server/evidence/table";

const columns = (["text", "number", "yes-no", "whole", "day", "text"] as const).map(column);

test("rows are written as RFC 4180, section 2, says: CRLF, quotation marks doubled, only where they are needed", () => {
  const rows: Value[][] = [
    ["aaa", "3.20", true, 4, "2031-03-31", null],
    ["b\r\nbb", -11.5, false, "-2", null, ""],
    ['say "hm", he', null, null, null, null, "=2+2"],
  ];
  expect(csvHead(columns) + csvRows(columns, rows)).toBe(
    'c0,c1,c2,c3,c4,c5\r\naaa,3.20,true,4,2031-03-31,\r\n"b\r\nbb",-11.5,false,-2,,""\r\n"say ""hm"", he",,,,,\'=2+2\r\n',
  );
});

test("a number stays a number, and nothing else gets into a column of numbers", () => {
  expect(csvRows([column("number", 0)], [[-11.5], ["-0.30"], [1e-7], [1e21]])).toBe(
    "-11.5\r\n-0.30\r\n1e-7\r\n1e+21\r\n",
  );
  for (const bad of ["=1+1", "+1", "1,5", "", " 1", "@a", true, Number.NaN, Number.POSITIVE_INFINITY, "1e999=\n"])
    expect(() => csvRows([column("number", 0)], [[bad]]), String(bad)).toThrow("c0");
  expect(() => csvRows([column("day", 0)], [["=2031"]])).toThrow("c0");
  expect(() => csvRows([column("text", 0)], [[4]])).toThrow("c0");
});

const texts = fc.string({ unit: "binary" });
const hostile = fc
  .tuple(fc.constantFrom("=", "+", "-", "@", "\t", "\r", "\n", "\0", "＝", "＠", "'=", '"', ",", "\r\n"), texts)
  .map(([first, rest]) => first + rest);
const rowsOfTexts = fc.array(fc.tuple(fc.oneof(texts, hostile, fc.constant(null)), fc.oneof(texts, hostile)));

test("whatever stands in a table comes back from its CSV as it was, through our reader", () => {
  const two = [column("text", 0), column("text", 1)];
  fc.assert(
    fc.property(rowsOfTexts, (rows) => {
      expect(readCsv(csvHead(two) + csvRows(two, rows), two)).toEqual(rows);
    }),
    { seed: 11, numRuns: 400 },
  );
});

test("read by a reader that nobody here wrote, no field of texts begins as a formula", () => {
  const two = [column("text", 0), column("text", 1)];
  fc.assert(
    fc.property(rowsOfTexts, (rows) => {
      const read: string[][] = parse(csvRows(two, rows), { record_delimiter: "\r\n", relax_column_count: false });
      expect(read).toHaveLength(rows.length);
      for (const field of read.flat())
        expect([..."=+-@\t\r\n\0＝＋－＠"].some((sign) => field.startsWith(sign))).toBe(false);
    }),
    { seed: 13, numRuns: 400 },
  );
});

test("numbers come back to the last bit", () => {
  const one = [column("number", 0), column("text", 1)];
  fc.assert(
    fc.property(fc.array(fc.double({ noNaN: true, noDefaultInfinity: true })), (numbers) => {
      const text =
        csvHead(one) +
        csvRows(
          one,
          numbers.map((number) => [number, "x"]),
        );
      expect(readCsv(text, one).map(([number]) => Number(number) + 0)).toEqual(numbers.map((number) => number + 0));
    }),
    { seed: 17 },
  );
});

test("a table that is cut off or altered in form is refused", () => {
  const two = [column("text", 0), column("text", 1)];
  const whole = csvHead(two) + csvRows(two, [["a", "b\r\nc"]]);
  expect(readCsv(whole, two)).toEqual([["a", "b\r\nc"]]);
  expect(() => readCsv(whole.slice(0, -1), two)).toThrow();
  expect(() => readCsv(whole.slice(0, -6), two)).toThrow("damaged");
  expect(() => readCsv(whole.replace("c1", "c9"), two)).toThrow("columns");
  expect(() => readCsv(`${whole}a\r\n`, two)).toThrow("fields");
});

function column(kind: Kind, at: number): Column {
  return { name: `c${at}`, kind, unit: null, says: "" };
}
