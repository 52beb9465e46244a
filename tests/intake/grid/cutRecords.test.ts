import fc from "fast-check";
import { expect, test } from "vitest";
import { countRecords, cutAfter } from "#server/intake/grid/cutRecords";
import type { Dialect } from "#server/intake/grid/records";

const COMMAS: Dialect = { delimiter: ",", quote: '"', escape: '"', width: 2, aligned: null };

test("a text is cut where so many records stand before, and not inside quotes", () => {
  const text = 'a,1\n"b\nb",2\nc,3\nd,4\n';
  expect(cutAfter(text, COMMAS, 2, [], 0)).toEqual({ at: text.indexOf("c,3"), records: 2 });
  expect(cutAfter(text, COMMAS, 4, [], 0)).toBeNull();
  expect(countRecords(text, COMMAS)).toBe(4);
});

test("the cut moves back to where a kept column changes, if that is in the second half", () => {
  const text = "a,1\na,2\na,3\nb,4\nb,5\nb,6\n";
  expect(cutAfter(text, COMMAS, 5, [0], 0)).toEqual({ at: text.indexOf("b,4"), records: 3 });
  expect(cutAfter(text.replaceAll("b", "a"), COMMAS, 5, [0], 0)).toEqual({ at: text.indexOf("b,6"), records: 5 });
});

test("a record near the end, which may go on, is not cut at", () => {
  expect(cutAfter("a,1\nb,2\nc,3\n", COMMAS, 2, [], 6)).toBeNull();
  expect(cutAfter("a,1\nb,2\nc,3\n", COMMAS, 1, [], 6)).toEqual({ at: 4, records: 1 });
});

test("parts have the records of the whole, whatever is written", () => {
  const cell = fc.oneof(
    fc.constantFrom("1", "2", "", '"x\ny"', '"a,b"'),
    fc.string({ unit: fc.constantFrom(..."ab ") }),
  );
  fc.assert(
    fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1 }), fc.integer({ min: 1, max: 5 }), (rows, most) => {
      const text = rows.map((row) => `${row.join(",")}\n`).join("");
      const all = countRecords(text, COMMAS);
      let rest = text;
      let records = 0;
      for (let cut = cutAfter(rest, COMMAS, most, [0], 0); cut !== null; cut = cutAfter(rest, COMMAS, most, [0], 0)) {
        expect(cut.records).toBe(countRecords(rest.slice(0, cut.at), COMMAS));
        records += cut.records;
        rest = rest.slice(cut.at);
      }
      expect(records + countRecords(rest, COMMAS)).toBe(all);
    }),
  );
});
