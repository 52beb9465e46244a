import fc from "fast-check";
import { expect, test } from "vitest";
import { withoutRepeats } from "#server/intake/rows/withoutRepeats";
import type { RowOnGrid } from "#server/terms/row";
import { readLines } from "../readings";

const HEADING = "Date | Batch no | In (kg) | Out (kg) | Minutes";

/** Rows of a log, as they are before repeats are looked for: every one counts. */
function rowsOf(lines: readonly string[]): RowOnGrid[] {
  return lines.map((one, at) => {
    const row = readLines({ period: "2031-06", massUnit: "kg", timeUnit: "min" }, HEADING, one).rows[1];
    if (row?.fate !== "counted") throw new Error(`${one} is ${row?.fate}`);
    return { ...row, row: at + 2 };
  });
}

const asideIn = (rows: readonly RowOnGrid[]) => rows.flatMap(({ fate, row }) => (fate === "set-aside" ? [row] : []));

test("rows that say the same of one number are told once, however far apart and whatever stands between", () => {
  const line = fc
    .tuple(fc.constantFrom("3", "4"), fc.constantFrom("Aa", "BB", "C1"), fc.constantFrom("3", "3.1", "3.2"))
    .map(([date, number, dried]) => `2031-06-0${date} | ${number} | 10 | ${dried} | 90`);
  fc.assert(
    fc.property(fc.array(line, { minLength: 1, maxLength: 30 }), (lines) => {
      const again = lines.flatMap((one, at) => (lines.indexOf(one) < at ? [at + 2] : []));
      expect(asideIn(withoutRepeats(rowsOf(lines)))).toEqual(again);
    }),
    { seed: 31, numRuns: 60 },
  );
});

test("a ninth row of one number and day is no longer looked for, as in a log whose numbers say nothing", () => {
  const lines = Array.from({ length: 10 }, (_, at) => `2031-06-03 | 1 | 10 | 3.${at} | 90`);
  const rows = rowsOf([...lines, lines[0] ?? "", lines[9] ?? ""]);
  expect(asideIn(withoutRepeats(rows))).toEqual([12]);
});

test("a thousand loads without a number of their own all stay", () => {
  const [row] = rowsOf(["2031-06-03 |  | 10 | 3 | 90"]);
  const rows = Array.from({ length: 1000 }, (_, at) => ({ ...row!, row: at + 2 }));
  expect(withoutRepeats(rows)).toBe(rows);
});
