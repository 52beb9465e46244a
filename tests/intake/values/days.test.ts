import { expect, test } from "vitest";
import { dayOfSerial, readDay, serialOf1904 } from "#server/intake/values/days";
import { stored, written } from "./cells";

test.each([
  [45823, "2025-06-15"],
  [45292, "2024-01-01"],
  [61, "1900-03-01"],
  [59, "1900-02-28"],
  [1, "1900-01-01"],
])("serial %s of the 1900 system is %s (ECMA-376 Part 4, 3.17.4.1)", (serial, day) => {
  expect(dayOfSerial(serial)).toBe(day);
});

test("serial 60 is a day that never was (ECMA-376 Part 4, 3.17.4.1)", () => {
  expect(dayOfSerial(60)).toBeNull();
  expect(dayOfSerial(0)).toBeNull();
});

test.each([
  [37287, "2006-02-01"],
  [2225, "1910-02-03"],
])("serial %s of the 1904 system is %s (ECMA-376 Part 4, 3.17.4.1)", (serial, day) => {
  expect(dayOfSerial(serialOf1904(serial))).toBe(day);
});

test("1 January 2025 is 45658 in the 1900 system and 44196 in the 1904 system", () => {
  expect(dayOfSerial(45658)).toBe("2025-01-01");
  expect(serialOf1904(44196)).toBe(45658);
});

test.each([
  ["2025-06-03", "2025-06-03"],
  ["2025/6/3", "2025-06-03"],
  ["20250603", "2025-06-03"],
  ["3 juin 2025", "2025-06-03"],
  ["1er juin 2025", "2025-06-01"],
  ["3-Jun-2025", "2025-06-03"],
  ["3-Jun-25", "2025-06-03"],
  ["June 3, 2025", "2025-06-03"],
  ["mardi 3 juin 2025", "2025-06-03"],
  ["mar 3 juin 2025", "2025-06-03"],
  ["Mar 3, 2025", "2025-03-03"],
  ["3 de junio de 2025", "2025-06-03"],
  ["3 agosti 2025", "2025-08-03"],
  ["3 Agustus 2025", "2025-08-03"],
  ["2025-06-03T23:30:00-12:00", "2025-06-03"],
  ["45823", "2025-06-15"],
  ["٢٠٢٥-٠٦-٠٣", "2025-06-03"],
])("“%s” is %s", (text, day) => {
  expect(readDay(written(text))).toMatchObject({ kind: "day", day });
});

test.each([
  ["03/06/2025", 3, 6, 2025],
  ["03.06.25", 3, 6, 2025],
  ["3/6", 3, 6, null],
  ["Lundi 3/6", 3, 6, null],
  ["Sen 3/6", 3, 6, null],
  ["mar 04/11/2025", 4, 11, 2025],
  ["mar. 4/11", 4, 11, null],
  ["03-06-2025 07:30", 3, 6, 2025],
])("“%s” keeps its parts until their order is known", (text, a, b, year) => {
  expect(readDay(written(text))).toMatchObject({ kind: "parts", a, b, year });
});

test("a time beside the date is the start", () => {
  expect(readDay(written("03-06-2025 07:30"))).toMatchObject({ minute: 450 });
  expect(readDay(stored(45823.25, "day"))).toEqual({ kind: "day", day: "2025-06-15", minute: 360 });
});

test.each(["2026-02-30", "0000-00-00", "yesterday", "1773532800", "Lundi", "12:30", "3.5"])(
  "“%s” is no day on its own",
  (text) => {
    expect(["none", "parts"]).toContain(readDay(written(text)).kind);
    expect(readDay(written(text)).kind === "day").toBe(false);
  },
);

test("3 June without a year and a bare 3 wait for the month of the log", () => {
  expect(readDay(written("3 juin"))).toEqual({ kind: "named", date: 3, month: 6 });
  expect(readDay(written("3-Jun"))).toEqual({ kind: "named", date: 3, month: 6 });
  expect(readDay(written("3"))).toEqual({ kind: "date-only", date: 3 });
  expect(readDay(written(""))).toEqual({ kind: "absent" });
});
