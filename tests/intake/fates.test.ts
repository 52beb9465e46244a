import fc from "fast-check";
import { expect, test } from "vitest";
import { faultsOf } from "#server/intake/faults/faultsOf";
import { RowOfCells } from "#server/intake/grid/rowOfCells";
import { readLog, sheetsToRead } from "#server/intake/readLog";
import { isDay } from "#server/terms/days";
import type { Cell, Grid } from "#server/terms/grid";
import { HELD, SET_ASIDE } from "#server/terms/problem";
import type { Hints } from "#server/terms/row";

const HEADINGS = [
  "Date",
  "Batch no",
  "Fresh (kg)",
  "Dried (g)",
  "In",
  "Out (kg)",
  "Minutes",
  "Start",
  "End",
  "LPG",
  "Bois (kg)",
  "Fuel",
  "Loads",
  "Charge",
  "Lot",
  "Weight",
  "Pan",
  "By",
  "Remarks",
  "Sortie",
  "",
  "Site",
  "New sand",
  "Village",
  "changed",
];
const CELLS = [
  "",
  "",
  "-",
  "3",
  "10",
  "3.2",
  "3,2",
  "3.500",
  "12 kg",
  "3300 g",
  "2 buckets",
  "1h20",
  "1.20",
  "80",
  "8:00",
  "23:30",
  "00:10",
  "03/06/2031",
  "14/06/2031",
  "2031-06-02",
  "3 juin",
  "45823",
  "Total",
  "Sub-total",
  "closed",
  "néant",
  "n/a",
  "tomorrow",
  '"',
  "do",
  "yes",
  "wood",
  "Amina",
  "#REF!",
  "-4",
  "0",
  "kg",
  "Date",
  "Fresh (kg)",
  "=1+1",
  "__proto__",
  "7".repeat(40),
  "~12",
  "Lundi",
];

const someCell = fc
  .constantFrom(...CELLS)
  .map((text): Cell => (text === "" ? { text, kind: "blank", value: null } : { text, kind: "text", value: null }));
const someNumber = fc
  .double({ noNaN: true, min: -5, max: 60_000 })
  .chain((value) =>
    fc.constantFrom("number", "day", "time").map((kind): Cell => ({ text: String(value), kind, value })),
  );
const someRow = fc.array(fc.oneof({ weight: 6, arbitrary: someCell }, { weight: 1, arbitrary: someNumber }), {
  maxLength: 9,
});
const someHeading = fc
  .array(fc.constantFrom(...HEADINGS), { maxLength: 9 })
  .map((texts) => texts.map((text): Cell => ({ text, kind: text === "" ? "blank" : "text", value: null })));
const someSheet = fc.tuple(
  fc.array(someRow, { maxLength: 2 }),
  someHeading,
  fc.array(someRow, { maxLength: 12 }),
  someHeading,
  fc.array(someRow, { maxLength: 4 }),
);
const someGrid = fc
  .tuple(
    fc.constantFrom("delimited", "xlsx"),
    fc.array(fc.tuple(someSheet, fc.boolean()), { minLength: 1, maxLength: 3 }),
  )
  .map(
    ([format, sheets]): Grid => ({
      format,
      notes: [],
      sheets: sheets.map(([[before, heading, rows, second, more], hidden], at) => ({
        name: `Sheet ${at}`,
        hidden: hidden && at > 0,
        rows: [...before, heading, ...rows, second, ...more].map(
          (cells, index) => new RowOfCells(index * 2 + 1, cells),
        ),
      })),
    }),
  );
const someHints = fc.constantFrom<Hints>(
  {},
  { period: "2031-06" },
  {
    massUnit: "kg",
    timeUnit: "min",
    fuelUnit: "kg",
    fuel: "lpg",
    tally: true,
    dayOrder: "dmy",
    decimalMark: ",",
    lastDay: "2031-06-30",
    containers: { bucket: 8 },
  },
);

test("whatever a table says, each of its rows has one fate with its reasons, and the counts add up to the file", () => {
  fc.assert(
    fc.property(someGrid, someHints, (grid, hints) => {
      const read = readLog(grid, hints);
      const sheets = sheetsToRead(grid);
      const places = sheets.flatMap((sheet) => sheet.rows.map(({ row }) => `${sheet.name}!${row}`));
      expect(read.rows.map(({ sheet, row }) => `${sheet}!${row}`)).toEqual(places);
      const { rows, counted, held, setAside } = read.counts;
      expect(counted + held + setAside).toBe(rows);
      expect(rows).toBe(places.length);
      for (const { fate, reasons, day, batch, fuel, driedOnly, countsWith, cells, sealed, row, sheet } of read.rows) {
        const codes = reasons.map(({ code }) => code);
        const holding = codes.filter((code) => HELD.some((one) => one === code));
        const aside = codes.filter((code) => SET_ASIDE.some((one) => one === code));
        expect([holding.length > 0, aside.length]).toEqual([fate === "held", fate === "set-aside" ? 1 : 0]);
        if (fate === "counted") expect(batch !== null || fuel.length > 0 || countsWith !== undefined).toBe(true);
        if (fate === "set-aside") expect([day, batch, fuel, driedOnly]).toEqual([null, null, [], false]);
        if (batch !== null) expect([isDay(batch.day), batch.loads >= 1]).toEqual([true, true]);
        if (fuel.length > 0) expect(isDay(day ?? "")).toBe(true);
        for (const { at } of reasons) expect([at.sheet, at.row]).toEqual([sheet, row]);
        const said = sheets.find(({ name }) => name === sheet)?.rows.find((one) => one.row === row);
        expect([...cells].length + sealed.length).toBe(said?.cells.filter(({ text }) => text.trim() !== "").length);
      }
    }),
    { seed: 21, numRuns: 600 },
  );
}, 60_000);

test("what is offered to put in place of a cell settles that cell", () => {
  fc.assert(
    fc.property(someGrid, someHints, (grid, hints) => {
      for (const { reasons } of readLog(grid, hints).rows) {
        for (const { code, at, choices = [] } of reasons) {
          if (code === "unit-slip-suspected" || at.column === null) continue;
          for (const { put } of choices) {
            const cells = { [`${at.sheet}!${at.column}${at.row}`]: put };
            const again = readLog(grid, { ...hints, answers: { cells } });
            const row = again.rows.find((one) => one.sheet === at.sheet && one.row === at.row);
            const left = row?.reasons.filter((one) => one.code === code && one.at.column === at.column) ?? [];
            expect(left, `${put} for ${code}`).toEqual([]);
          }
        }
      }
    }),
    { seed: 22, numRuns: 150 },
  );
}, 60_000);

test("a yes to any fault that is proposed loses no row", () => {
  fc.assert(
    fc.property(someGrid, someHints, (grid, hints) => {
      const read = readLog(grid, hints);
      for (const { answers, rows, sheet } of faultsOf(read, hints)) {
        expect(read.rows.filter((row) => row.sheet === sheet && rows.includes(row.row))).toHaveLength(rows.length);
        if (answers === null) continue;
        const again = readLog(grid, { ...hints, answers });
        expect(again.rows.map(({ sheet: name, row }) => `${name}!${row}`)).toEqual(
          read.rows.map(({ sheet: name, row }) => `${name}!${row}`),
        );
      }
    }),
    { seed: 24, numRuns: 300 },
  );
}, 60_000);

test("reading twice gives the same", () => {
  fc.assert(
    fc.property(someGrid, someHints, (grid, hints) => {
      expect(readLog(grid, hints)).toEqual(readLog(grid, hints));
    }),
    { seed: 23, numRuns: 100 },
  );
}, 60_000);

test.each(["7", "(", " 1", "a", "-", "1,", "“", "é ", "1 kg "])(
  "endless cells of “%s” do not slow the reading down",
  (part) => {
    const text = part.repeat(Math.ceil(32_767 / part.length));
    const cell: Cell = { text, kind: "text", value: null };
    const heading = HEADINGS.map((one): Cell => ({ text: one, kind: "text", value: null }));
    const rows = [heading, ...Array.from({ length: 10 }, () => heading.map(() => cell))];
    const before = performance.now();
    const read = readLog(
      {
        format: "xlsx",
        sheets: [{ name: "Log", hidden: false, rows: rows.map((cells, at) => new RowOfCells(at + 1, cells)) }],
        notes: [],
      },
      {},
    );
    expect(read.counts.counted).toBe(0);
    expect(performance.now() - before).toBeLessThan(10_000);
  },
  60_000,
);

test("a hundred thousand rows are read in a few seconds", () => {
  const heading = ["Date", "Batch no", "In (kg)", "Out (kg)", "Start", "End", "LPG (kg)", "By"];
  const lines = Array.from({ length: 100_000 }, (_, at) => {
    const date = String((at % 28) + 1).padStart(2, "0");
    return [`2031-06-${date}`, `B${at}`, `${10 + (at % 9)}.5`, `3.${(at % 80) + 10}`, "08:05", "09:40", "0.8", "Asha"];
  });
  const cellOf = (text: string): Cell => ({ text, kind: "text", value: null });
  const rows = [heading, ...lines].map((texts, at) => new RowOfCells(at + 1, texts.map(cellOf)));
  const before = performance.now();
  const read = readLog({ format: "delimited", sheets: [{ name: "Log", hidden: false, rows }], notes: [] }, {});
  expect(read.counts).toEqual({ rows: 100_001, counted: 100_000, held: 0, setAside: 1 });
  expect(performance.now() - before).toBeLessThan(20_000);
}, 60_000);
