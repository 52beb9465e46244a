import fc from "fast-check";
import { expect, test } from "vitest";
import { readNumber } from "#server/intake/values/decimals";

test.each([
  ["1234.5", "1234.5"],
  ["1.234,5", "1234.5"],
  ["1,234.5", "1234.5"],
  ["1 234,5", "1234.5"],
  ["1\u00a0234,5", "1234.5"],
  ["1\u2009234,5", "1234.5"],
  ["1\u202f234,5", "1234.5"],
  ["1'234.5", "1234.5"],
  ["1’234.5", "1234.5"],
  ["1.234.567", "1234567"],
  ["3,5", "3.5"],
  ["0.350", "0.35"],
  ["0,350", "0.35"],
  ["1234.500", "1234.5"],
  ["12.", "12"],
  [",5", "0.5"],
  ["-3,2", "-3.2"],
  ["−3,2", "-3.2"],
  ["007", "7"],
  ["3.20", "3.2"],
  ["٣٫٥", "3.5"],
  ["١٢٫٥٠٠", "12.5"],
  ["٥٨", "58"],
  ["3½", "3.5"],
  ["3 1/2", "3.5"],
  ["¾", "0.75"],
])("%s is %s whatever the column says", (text, exact) => {
  expect(readNumber(text)).toMatchObject({ kind: "number", exact });
});

test.each([
  ["3.500", "3.5", "3500"],
  ["3,500", "3500", "3.5"],
  ["12.345", "12.345", "12345"],
  ["-1.250", "-1.25", "-1250"],
])("%s alone can be read with both marks", (text, point, comma) => {
  expect(readNumber(text)).toEqual({ kind: "either", point, comma });
});

test.each([
  ["~3", "3"],
  ["±3", "3"],
  ["<1", "1"],
  ["3,2?", "3.2"],
  ["1O", "10"],
  ["l2,5", "12.5"],
  ["1e3", "1000"],
])("%s needs a person's word", (text, exact) => {
  expect(readNumber(text)).toEqual({ kind: "doubtful", exact });
});

test.each([
  "",
  "abc",
  "12..5",
  "1,2,3",
  "12.5.3",
  "0x1F",
  "NaN",
  "Infinity",
  "1e308",
  "12-13",
  "O",
  "1 23",
  "3.2.1,5",
  "٫5",
])("“%s” is no number", (text) => {
  expect(readNumber(text)).toEqual({ kind: "none" });
});

test.each([
  ["1.234,5", ","],
  ["1,234.5", "."],
  ["1.234.567", ","],
  ["12,5", ","],
  ["1 234", null],
  ["12", null],
])("%s proves the mark %s", (text, shows) => {
  expect(readNumber(text)).toMatchObject({ shows });
});

test("a number is read as it was written, with every mark and grouping", () => {
  const parts = fc.tuple(
    fc.integer({ min: 0, max: 9_999_999 }),
    fc.integer({ min: 1, max: 99 }),
    fc.constantFrom(" ", "'", ".", ","),
  );
  fc.assert(
    fc.property(parts, ([whole, hundredths, group]) => {
      const mark = group === "," ? "." : ",";
      const grouped = String(whole).replace(/\B(?=(\d{3})+$)/g, group);
      const read = readNumber(`${grouped}${mark}${String(hundredths).padStart(2, "0")}`);
      expect(read.kind === "number" ? Number(read.exact) : read).toBe(
        Number(`${whole}.${String(hundredths).padStart(2, "0")}`),
      );
    }),
    { seed: 11 },
  );
});
