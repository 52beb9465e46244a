import { expect, test } from "vitest";
import { type KnownBatch, type MatchRow, matchRows } from "#server/intake/match/matchRows";
import type { Reading } from "#server/terms/row";
import { lines, readFile } from "./readings";

/** The rows of a log that speak of a batch, as they go on to be matched. */
function countedRows({ rows }: Reading): MatchRow[] {
  return rows.flatMap(({ sheet, row, fate, batch, driedOnly }) =>
    fate === "counted" && batch !== null ? [{ key: `${sheet}!${row}`, batch, driedOnly }] : [],
  );
}

test("a month of day tallies with a lost dried weight and one that is weighed in the next month", () => {
  const june = readFile("tally-june.csv", { period: "2031-06" });
  const july = readFile("tally-july.csv", { period: "2031-07" });
  expect(lines(june)).toEqual([
    "1 set-aside | before-the-table",
    "2 set-aside | heading-row",
    "3 counted 2031-06-27 18>5.9 324min site-day of 18",
    "4 counted 2031-06-28 17>? 306min site-day of 17 | dried-missing",
    "5 set-aside | nothing-produced-row",
    "6 counted 2031-06-30 18>? 320min site-day of 18 | dried-to-come",
    "7 set-aside | totals-row",
  ]);
  expect(june.totals.map(({ meaning, written, read }) => [meaning, written, read])).toEqual([
    ["fresh", 53, 53],
    ["dried", 5.9, 5.9],
    ["loads", 53, 53],
    ["minutes", 950, 950],
  ]);
  expect(lines(july)).toEqual([
    "1 set-aside | heading-row",
    "2 counted 2031-07-01 ?>5.8 dried only | fresh-missing",
    "3 counted 2031-07-01 16>5.2 290min site-day of 16",
    "4 counted 2031-07-13 18>5.95 322min site-day of 18",
  ]);

  const known = countedRows(june).map(({ key, batch }): KnownBatch => ({ id: `june ${key}`, batch, from: "june" }));
  const { matches, vanished } = matchRows(countedRows(july), known, "day");
  expect(matches).toEqual([
    { key: "tally-july!2", kind: "joins-dried", batch: "june tally-june!6", members: [] },
    { key: "tally-july!3", kind: "new", batch: null, members: [] },
    { key: "tally-july!4", kind: "new", batch: null, members: [] },
  ]);
  expect(vanished).toEqual([]);
});

test("the same log sent again in another file finds every batch it made", () => {
  const rows = countedRows(readFile("english-loads.csv"));
  const known = rows.map(({ key, batch }): KnownBatch => ({ id: key, batch, from: "first" }));
  for (const numbering of ["site", "day"] as const) {
    const { matches, vanished } = matchRows([...rows].reverse(), known, numbering);
    expect(matches.map(({ key, kind, batch }) => [kind, batch === key])).toEqual(rows.map(() => ["same", true]));
    expect(vanished).toEqual([]);
  }
});
