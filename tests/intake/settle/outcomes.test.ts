import { expect, test } from "vitest";
import { outcomeInWords } from "#app/_words/outcomes";
import { readLog } from "#server/intake/readLog";
import { outcomesOf } from "#server/intake/settle/outcomes";
import { gridOf } from "../readings";

test("each choice of a question says what the log would come to", () => {
  const grid = gridOf("Date | In (kg) | Out (kg)", "3/6/2031 | 3.500 | 1.2", "4/6/2031 | 3.600 | 1.3");
  const reading = readLog(grid, {});
  const outcomes = outcomesOf(grid, reading, {});
  expect(outcomes.map(({ code, choice, assumes, counted, from }) => [code, choice, assumes, counted, from])).toEqual([
    ["day-order", "dmy", true, 2, "2031-06-03"],
    ["day-order", "mdy", true, 2, "2031-03-06"],
    ["decimal-mark", ".", true, 2, "2031-06-03"],
    ["decimal-mark", ",", true, 0, null],
  ]);
  expect(outcomeInWords(outcomes[1])).toContain("once the rest is answered too, 2 rows would count");
});

test("columns without a unit are asked one by one and reckoned as if they shared one", () => {
  const grid = gridOf("Date | In | Out", "13/6/2031 | 5200 | 1700");
  const outcomes = outcomesOf(grid, readLog(grid, {}), {});
  expect(outcomes.map(({ column, choice, counted, usualFreshKg }) => [column, choice, counted, usualFreshKg])).toEqual([
    ["B", "kg", 1, 5200],
    ["B", "g", 1, 5.2],
    ["B", "lb", 1, expect.closeTo(5200 * 0.45359237, 6)],
    ["C", "kg", 1, 5200],
    ["C", "g", 1, 5.2],
    ["C", "lb", 1, expect.closeTo(5200 * 0.45359237, 6)],
  ]);
});

test("3.500 as decimals makes a usual yield, and as thousands one that cannot be", () => {
  // 1.2 of 3.5 kg is 34 %; 1.2 of 3,500 kg is 0.03 %
  const grid = gridOf("Date | In (kg) | Out (kg)", "13/6/2031 | 3.500 | 1,2 kg");
  const reading = readLog(grid, {});
  const [point, comma] = outcomesOf(grid, reading, {});
  expect(point).toMatchObject({ choice: ".", counted: 1, usualFreshKg: 3.5 });
  expect(point?.dryYield).toBeCloseTo(1.2 / 3.5, 12);
  expect(outcomeInWords(point)).toBe(
    "1 row would count; a dry yield of 34 %; a usual load of 3.5 kg; all on 13 Jun 2031",
  );
  expect(comma).toMatchObject({ choice: ",", counted: 0, held: 1 });
  expect(outcomeInWords(comma)).toBe("no row would count yet, 1 row would still need an answer");
});

test("a long log is not read once more for every choice", () => {
  const rows = Array.from({ length: 3001 }, () => "3/6/2031 | 10 | 3.2");
  const grid = gridOf("Date | In (kg) | Out (kg)", ...rows);
  const reading = readLog(grid, {});
  expect(reading.questions).toHaveLength(1);
  expect(outcomesOf(grid, reading, {})).toEqual([]);
});
