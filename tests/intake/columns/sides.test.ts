import fc from "fast-check";
import { expect, test } from "vitest";
import { sidesOf } from "#server/intake/columns/sides";
import { turned } from "#server/intake/columns/turned";
import { sheetOf } from "../readings";

const names = (...lines: string[]) => sidesOf(sheetOf("Log", ...lines)).map(({ name }) => name);

test.each([
  [
    "a gap between two logs",
    ["Date | In (kg) | Out (kg) | | Date | In (kg) | Out (kg)", "3/6 | 10 | 3 | | 4/6 | 9 | 3"],
  ],
  ["no gap at all", ["Date | In (kg) | Out (kg) | No | Date | In (kg) | Out (kg)", "3/6 | 10 | 3 | 1 | 4/6 | 9 | 3"]],
])("tables side by side with %s are parted at the day of the second", (_, lines) => {
  expect(names(...lines)).toEqual(["Log", "Log (columns E to G)"]);
});

test.each<[string, string[]]>([
  ["a day in and a day out of one load", ["Date | In (kg) | Date | Out (kg)", "3/6 | 10 | 4/6 | 3"]],
  ["fuel of the same row behind a gap", ["Date | In (kg) | Out (kg) | | Gas (kg)", "3/6 | 10 | 3 | | 1"]],
  ["one load in kg and in crates", ["Date | In (kg) | Out (kg) | In (crates) | Out (bags)", "3/6 | 10 | 3 | 2 | 1"]],
  ["one load in kg and in lb", ["Date | In (kg) | Out (kg) | In (lb) | Out (lb)", "3/6 | 10 | 3 | 22 | 7"]],
  ["weekday beside date", ["Day | Date | In (kg) | Out (kg)", "Mon | 3/6 | 10 | 3"]],
])("%s is no second table", (_, lines) => {
  expect(names(...lines)).toEqual(["Log"]);
});

test("loads under the names of their pans become parts that share the day", () => {
  const sheet = sheetOf(
    "Log",
    "Date | Pan A | | Pan B | | Gas",
    " | In (kg) | Out (kg) | In (kg) | Out (kg) | kg",
    "3/6 | 10 | 3 | 9 | 2.8 | 1.2",
    "4/6 | 10 | 3.1 | | | 0.6",
  );
  const [first, second] = sidesOf(sheet);
  expect(first?.rows[2]?.cells.map(({ text }) => text)).toEqual(["3/6", "10", "3", "", "", "1.2"]);
  expect(second?.name).toBe("Log (columns D to E)");
  expect(second?.rows.map(({ row, cells }) => [row, ...cells.map(({ text }) => text)])).toEqual([
    [1, "Date", "", "", "Pan B", ""],
    [2, "", "", "", "In (kg)", "Out (kg)"],
    [3, "3/6", "", "", "9", "2.8"],
  ]);
});

test("every cell of a sheet stands in one of its parts, and only a shared day in more", () => {
  const texts = ["", "", "Date", "In (kg)", "Out (kg)", "Gas (kg)", "3/6", "10", "3.2", "Total", "Pan A", "By"];
  const someLine = fc
    .array(fc.constantFrom(...texts), { minLength: 2, maxLength: 9 })
    .map((cells) => cells.join(" | "));
  const heading = fc.constantFrom(
    "Date | In (kg) | Out (kg) | | Date | In (kg) | Out (kg)",
    "Date | In 1 (kg) | Out 1 (kg) | In 2 (kg) | Out 2 (kg)",
    "Date | Gas (kg) | | Date | In (kg) | Out (kg) | | Date | In (kg) | Out (kg)",
  );
  fc.assert(
    fc.property(
      fc.array(someLine, { maxLength: 3 }),
      heading,
      fc.array(someLine, { maxLength: 6 }),
      (above, line, below) => {
        const sheet = sheetOf("Log", ...above, line, ...below);
        const parts = sidesOf(sheet);
        for (const { row, cells } of sheet.rows) {
          for (const [index, { text }] of cells.entries()) {
            if (text === "") continue;
            const holders = parts.filter(
              ({ rows }) => rows.find((one) => one.row === row)?.cells[index]?.text === text,
            );
            expect(holders.length, `${text} in row ${row}`).toBeGreaterThanOrEqual(1);
            if (index > 0) expect(holders.length, `${text} in row ${row}`).toBe(1);
          }
        }
      },
    ),
    { seed: 31, numRuns: 300 },
  );
});

test("a sheet with a load a column is turned, and says so", () => {
  const sheet = turned(sheetOf("June", "Date | 3/6 | 4/6", "In (kg) | 10 | 9", "", "Out (kg) | 3 | 2.8"));
  expect(sheet?.name).toBe("June (turned)");
  expect(sheet?.rows.map(({ row, cells }) => [row, ...cells.map(({ text }) => text)])).toEqual([
    [1, "Date", "In (kg)", "", "Out (kg)"],
    [2, "3/6", "10", "", "3"],
    [3, "4/6", "9", "", "2.8"],
  ]);
});

test("a sheet with a load a row, or with no table at all, stays as it is", () => {
  expect(turned(sheetOf("June", "Date | In (kg) | Out (kg)", "3/6 | 10 | 3"))).toBeNull();
  expect(turned(sheetOf("Contacts", "Amina | 0700", "Moses | 0701"))).toBeNull();
});
