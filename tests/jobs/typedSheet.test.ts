import fc from "fast-check";
import { expect, test } from "vitest";
import { readGrid } from "#server/intake/grid/readGrid";
import { readLog } from "#server/intake/readLog";
import { filledLines, TYPED_COLUMNS, type TypedSheet, typedCsv } from "#server/jobs/typedSheet";
import { readSettings } from "#server/settings";

const { bounds } = readSettings({});
const KG = { massUnit: "kg", fuel: "LPG (kg)" } as const;

test("each row of what was typed names its picture and the line in it, and empty lines and columns are left out", () => {
  const sheet: TypedSheet = {
    ...KG,
    lines: [
      { line: 1, cells: { day: "14/03/2026", fresh: " 5.2 ", dried: "1.7" } },
      { line: 2, cells: { remarks: "  " } },
      { line: 3, cells: { day: "15/03/2026", fresh: "4,9", remarks: 'wind, "strong"' } },
    ],
  };
  expect(typedCsv("EV-7K2MPQ4R", sheet)).toBe(
    [
      "Picture and line,Date,Fresh (kg),Dried (kg),Remarks",
      "picture EV-7K2MPQ4R line 1,14/03/2026,5.2,1.7,",
      'picture EV-7K2MPQ4R line 3,15/03/2026,"4,9",,"wind, ""strong"""',
      "",
    ].join("\r\n"),
  );
  expect(filledLines(sheet.lines).map(({ line }) => line)).toEqual([1, 3]);
});

test("nothing typed is no log", () => {
  expect(typedCsv("EV-7K2MPQ4R", { ...KG, lines: [] })).toBe(null);
  expect(typedCsv("EV-7K2MPQ4R", { ...KG, lines: [{ line: 1, cells: { fresh: " " } }] })).toBe(null);
});

test("what was typed is read as it stands, the first column as no measure, a date once for the lines below it", () => {
  const csv = typedCsv("EV-7K2MPQ4R", {
    massUnit: "g",
    fuel: "Firewood (kg)",
    lines: [
      { line: 1, cells: { day: "2026-03-14", number: "1", pan: "1", fresh: "5200", dried: "1700", minutes: "80" } },
      { line: 2, cells: { number: "2", pan: "2", fresh: "5100", dried: "1650", minutes: "85", fuel: "3.5" } },
    ],
  });
  const grid = readGrid(new TextEncoder().encode(csv ?? ""), "log", bounds);
  if ("refused" in grid) throw new Error(grid.refused);
  const reading = readLog(grid, {});
  expect(reading.questions).toEqual([]);
  expect(reading.tables[0]?.columns.map(({ meaning }) => meaning)).toEqual([
    null,
    "day",
    "batch-number",
    "pan",
    "fresh",
    "dried",
    "minutes",
    "firewood",
  ]);
  const batches = reading.rows.flatMap(({ batch }) => batch ?? []);
  expect(batches.map(({ day, dried }) => [day, dried?.value])).toEqual([
    ["2026-03-14", 1.7],
    ["2026-03-14", 1.65],
  ]);
});

test("whatever is typed, a row of the log is one line of its text, one for each filled line", () => {
  const cells = fc.dictionary(fc.constantFrom(...TYPED_COLUMNS), fc.string({ unit: "binary" }));
  fc.assert(
    fc.property(fc.array(cells), (all) => {
      const lines = all.map((one, at) => ({ line: at + 1, cells: one }));
      const csv = typedCsv("EV-7K2MPQ4R", { ...KG, lines });
      const filled = filledLines(lines);
      expect(csv === null ? 0 : csv.split(/\r\n|\r|\n/).length - 2).toBe(filled.length);
    }),
  );
});
