import { expect, test } from "vitest";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { readLog } from "#server/intake/readLog";
import type { Hints } from "#server/terms/row";

const BOUNDS = {
  bytes: 64 * 2 ** 20,
  unpackedBytes: 64 * 2 ** 20,
  rows: 20_000,
  columns: 512,
  cellCharacters: 32_767,
  sheets: 40,
};
const HEADING = "Date,Batch,Fresh (kg),Dried (kg),Minutes\n";

function read(text: string, hints: Hints = {}) {
  const grid = readGrid(new TextEncoder().encode(text), "log", BOUNDS);
  return isUnreadable(grid) ? grid : readLog(grid, hints);
}

// Sizes rather than times: a machine may be busy, but work that grows faster than the file shows in minutes.
test.each([
  ["in quotes", `"${"a".repeat(30 * 2 ** 20)}"`],
  ["without quotes", "a".repeat(30 * 2 ** 20)],
  ["in a quote that never closes", `"${"a b ".repeat(8 * 2 ** 20)}`],
])("a cell of thirty megabytes %s is refused with its row", (_, cell) => {
  expect(read(`${HEADING}2031-05-02,1,3.1,1.02,25\n2031-05-02,2,${cell},1.0,25\n`)).toMatchObject({
    refused: "cell-too-long",
    detail: expect.stringMatching(/^row 3: \d+ > 32767$/),
  });
});

test.each([
  ["commas", ","],
  ["semicolons", ";"],
  ["quotes", '"'],
  ["line ends", "\n"],
  ["zero bytes", "\0"],
])("eight megabytes of %s end in a refusal and in no row", (_, mark) => {
  expect(read(mark.repeat(8 * 2 ** 20))).toMatchObject({ refused: expect.any(String) });
});

test("a row of four million cells is refused with its place", () => {
  const detail = "row 3: 4000001 > 512";
  expect(read(`${HEADING}2031-05-02,1,3.1,1.02,25\n${"a,".repeat(4_000_000)}\n`)).toEqual({
    refused: "too-many-columns",
    detail,
  });
});

test("more rows than allowed are refused before they are read as batches", () => {
  const row = "2031-05-02,1,3.1,1.02,25\n";
  expect(read(HEADING + row.repeat(20_001))).toMatchObject({ refused: "too-many-rows" });
});

// The Ethiopian calendar runs seven to eight years behind and has a thirteenth month of five or six days: common knowledge.
test("days of the Ethiopian calendar are held and never taken for others", () => {
  const days = ["28/12/2023", "30/12/2023", "03/13/2023", "05/13/2023"];
  const reading = read(HEADING + days.map((day, i) => `${day},${i + 1},3.1,1.02,25\n`).join(""), {
    period: "2031-09",
    dayOrder: "dmy",
  });
  if ("refused" in reading) throw new Error(reading.refused);
  expect(reading.counts).toMatchObject({ counted: 0, held: 4 });
  for (const row of reading.rows.slice(1)) expect(row.reasons.map(({ code }) => code).join()).toMatch(/^day-/);
});

test("in and out in one cell are not guessed apart", () => {
  const reading = read("Date,Batch,Fresh / dried (kg),Minutes\n2031-05-02,1,12/4,25\n2031-05-03,2,9/3,25\n", {
    period: "2031-05",
  });
  if ("refused" in reading) throw new Error(reading.refused);
  expect(reading.counts.counted).toBe(0);
  expect(reading.counts.rows).toBe(3);
});
