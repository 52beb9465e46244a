import { readdirSync, readFileSync } from "node:fs";
import { writeXlsx } from "hucre";
import { expect, test } from "vitest";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { sheetsToRead } from "#server/intake/readLog";
import type { Cell, Sheet } from "#server/terms/grid";

const BOUNDS = { bytes: 1e7, unpackedBytes: 6e7, rows: 1e5, columns: 512, cellCharacters: 32_767, sheets: 50 };

function sheetsOf(bytes: Uint8Array): Sheet[] {
  const grid = readGrid(bytes, "log", BOUNDS);
  if (isUnreadable(grid)) throw new Error(grid.refused);
  return sheetsToRead(grid);
}

/** Cells of one column that have one number and are not equal, as "number: text, text". */
function confused({ rows }: Sheet): string[] {
  const width = rows.reduce((most, row) => Math.max(most, row.width), 0);
  return Array.from({ length: width }).flatMap((_, index) => {
    const known = new Map<number, Cell>();
    return rows.flatMap((row) => {
      const number = row.numberAt(index);
      const before = known.get(number) ?? row.at(index);
      if (number !== -1) known.set(number, before);
      const { text, kind, value } = row.at(index);
      const isSame = number === -1 || (before.text === text && before.kind === kind && before.value === value);
      return isSame ? [] : [`${number}: ${before.text}, ${text}`];
    });
  });
}

test.each(readdirSync("tests/files/logs"))("cells of %s that share a number in a column are equal", (name) => {
  for (const sheet of sheetsOf(readFileSync(`tests/files/logs/${name}`))) expect(confused(sheet)).toEqual([]);
});

test("numbers, days and texts that repeat in one column of a workbook have numbers of their own", async () => {
  const days = [1, 2, 3].map((date) => new Date(Date.UTC(2031, 5, date)));
  const column = [...days, 5, 6, 7, "n/a", "n/a", "wet", "wet"];
  const rows = [...column, ...column].map((cell) => [cell]);
  const bytes = new Uint8Array(await writeXlsx({ sheets: [{ name: "Log", rows }] }));
  const [sheet] = sheetsOf(bytes);
  expect(sheet && confused(sheet)).toEqual([]);
  expect(new Set(sheet?.rows.map((row) => row.at(0).kind))).toEqual(new Set(["day", "number", "text"]));
  expect(new Set(sheet?.rows.map((row) => row.numberAt(0))).size).toBe(9);
});
