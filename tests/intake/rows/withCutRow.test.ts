import { expect, test } from "vitest";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { readLog } from "#server/intake/readLog";
import type { Hints } from "#server/terms/row";
import { lines } from "../readings";

const BOUNDS = { bytes: 1e6, unpackedBytes: 1e6, rows: 100, columns: 20, cellCharacters: 200, sheets: 3 };
const ROWS = "Date,In (kg),Out (kg),By\n2031-06-02,10,3.2,Asha\n2031-06-03,10,3.3,\n";

function read(text: string, hints: Hints = {}): string[] {
  const grid = readGrid(Buffer.from(text), "Log", BOUNDS);
  if (isUnreadable(grid)) throw new Error(grid.refused);
  return lines(readLog(grid, hints));
}

test("a last row that breaks off before its last cell is held: 10 may have been 10.5", () => {
  expect(read(`${ROWS}2031-06-04,10`).at(-1)).toBe("4 held 2031-06-04 10>? | dried-to-come row-cut-short");
});

test.each([
  ["with its line end", `${ROWS}2031-06-04,10\n`],
  ["as long as the others", `${ROWS}2031-06-04,10,3.1,`],
  ["in a log that is ragged anyway", `Salt Lane\n${ROWS}2031-06-04,10`],
])("a last row %s counts", (_, text) => {
  expect(read(text).at(-1)).toContain("counted");
});

test("once a person has put a weight in, the row stands", () => {
  expect(read(`${ROWS}2031-06-04,10`, { answers: { cells: { "Log!B4": "10 kg" } } }).at(-1)).toContain("4 counted");
});
