import { expect, test } from "vitest";
import { SharedCell } from "#server/intake/grid/sharedCell";
import { textCells } from "#server/intake/grid/textCells";

const cellOf = (cells: ReturnType<typeof textCells>, text: string, column = 0) => cells(text, 0, text.length, column);

test("a text that repeats in a column is one cell, and the same text in another column is another", () => {
  const cells = textCells();
  const first = cells("3.5,3.5,4", 0, 3, 0);
  expect(first).toEqual({ text: "3.5", kind: "text", value: null });
  expect(cells("3.5,3.5,4", 4, 7, 0)).toBe(first);
  expect(cells("3.5,3.5,4", 8, 9, 0)).not.toBe(first);
  expect(cells("3.5,3.5,4", 4, 7, 1)).not.toBe(first);
});

// 31 × "A" + "a" is 31 × "B" + "B": the two texts have one hash.
test("texts that fall on one place stay two cells", () => {
  const cells = textCells();
  expect([cellOf(cells, "Aa").text, cellOf(cells, "BB").text]).toEqual(["Aa", "BB"]);
  expect(cellOf(cells, "Aa")).not.toBe(cellOf(cells, "BB"));
});

test("hundreds of texts of one hash are read as they are, shared or not", () => {
  const cells = textCells();
  const alike = Array.from({ length: 512 }, (_, at) =>
    at.toString(2).padStart(9, "0").replaceAll("0", "Aa").replaceAll("1", "BB"),
  );
  for (const text of [...alike, ...alike]) expect(cellOf(cells, text).text).toBe(text);
  expect(alike.filter((text) => SharedCell.numberOf(cellOf(cells, text)) !== -1).length).toBeLessThan(20);
});

test("each of ten thousand texts is read as it stands; the first thousands are numbered from 0 on", () => {
  const cells = textCells();
  const texts = Array.from({ length: 10_000 }, (_, at) => `B${at}`);
  const first = texts.map((text) => cellOf(cells, text));
  expect(first.map(({ text }) => text)).toEqual(texts);
  const numbers = first.map(SharedCell.numberOf).filter((number) => number !== -1);
  expect(numbers).toEqual(numbers.map((_, at) => at));
  expect(numbers.length).toBeGreaterThan(3000);
  expect(texts.filter((text, at) => cellOf(cells, text) === first[at]).length).toBe(numbers.length);
});

test.each([
  { said: "nothing", text: "", kind: "blank" },
  { said: "spaces", text: "  ", kind: "blank" },
  { said: "a hard space", text: "\u00a0", kind: "blank" },
  { said: "a remark too long to repeat", text: "rain ".repeat(20), kind: "text" },
])("$said is a $kind cell with its text", ({ text, kind }) => {
  expect(cellOf(textCells(), text)).toEqual({ text, kind, value: null });
});
