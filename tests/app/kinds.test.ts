import { expect, test } from "vitest";
import { kindInWords, kindsOf, settlingsOfKind } from "#app/_words/kinds";
import { readLines } from "../intake/readings";

const LOG = [
  "Date | In (kg) | Out (kg) | Minutes",
  "13/6/2031 | 1.7 | 5.2 | 80",
  "14/6/2031 | 1.8 | 5.1 | 80",
  "15/6/2031 | 1.6 | 5.0 | two pots",
  "16/6/2031 | 5.1 | abc | 80",
  "17/6/2031 | 5.1 | 1.7 | 80",
];
const NOTHING_USUAL = { fresh: null, dried: null };

test("rows that the same doubt holds can be settled together once they are three", () => {
  const { rows } = readLines({}, ...LOG);
  const kinds = kindsOf(rows.filter(({ fate }) => fate === "held"));
  expect(kinds.map(({ key, rows: held }) => [key, held.map(({ row }) => row.row)])).toEqual([
    ["out-more-than-in Log!C", [2, 3, 4]],
  ]);
  const [kind] = kinds;
  if (kind === undefined) throw new Error("no kind was found");
  expect(kindInWords(kind)).toBe("3 rows gave more than went in, by dried out");
  expect(settlingsOfKind(kind, NOTHING_USUAL)).toEqual([
    { how: "0", says: "In all of them the two weights were exchanged" },
    { how: "as-written", says: "All of them: they stand as written, and count so, with a flag" },
    { how: "aside", says: "None of them is a batch: set them all aside" },
  ]);
  expect(kindsOf(rows.slice(0, 3))).toEqual([]);
});

test("a kind whose rows have a choice in common says it by its first row", () => {
  const log = [
    "Date | Minutes | In (kg)",
    ...["1.20", "1.10", "1.30"].map((time, at) => `1${at + 3}/6/2031 | ${time} | 5`),
  ];
  const [kind] = kindsOf(readLines({}, ...log).rows);
  if (kind === undefined) throw new Error("no kind was found");
  expect(settlingsOfKind(kind, NOTHING_USUAL)[0]?.says).toBe(
    "All in this way: “1.20” in row 2 becomes 1h20: 80 minutes",
  );
});

test("rows without a date cannot stand as they are written", () => {
  const log = ["Date | In (kg) | Out (kg)", "13/6/2031 | 5 | 1.7", ...["a", "b", "c"].map((day) => `${day} | 5 | 1.7`)];
  const [kind] = kindsOf(readLines({}, ...log).rows);
  expect(kind === undefined ? [] : settlingsOfKind(kind, NOTHING_USUAL).map(({ how }) => how)).toEqual(["aside"]);
});
