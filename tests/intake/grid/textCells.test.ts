import { expect, test } from "vitest";
import { TextCells } from "#server/intake/grid/textCells";
import { BLANK, type GridRow } from "#server/terms/grid";

/** Rows of cells that are parted by commas. */
function rowsOf(...lines: readonly string[]): GridRow[] {
  const cells = new TextCells();
  return lines.flatMap((line, at) => {
    const texts = line.split(",");
    for (const [column, text] of texts.entries()) cells.add(text, 0, text.length, column);
    return cells.row(at + 1, texts.length) ?? [];
  });
}

const numbersOf = (rows: readonly GridRow[]) => rows.map((row) => row.numberAt(0));
const textsOf = (rows: readonly GridRow[]) => rows.map((row) => row.at(0).text);

test("a text that repeats in a column is one cell, and the same text in another column is another", () => {
  const [first, second] = rowsOf("3.5,3.5", "4,3.5");
  expect(first?.at(1)).toEqual({ text: "3.5", kind: "text", value: null });
  expect(first?.at(1)).toBe(second?.at(1));
  expect(first?.at(0)).not.toBe(second?.at(0));
  expect(first?.at(0)).not.toBe(first?.at(1));
});

// 31 × "A" + "a" is 31 × "B" + "B": the two texts have one hash.
test("texts that fall on one place stay two cells", () => {
  const rows = rowsOf("Aa", "BB", "Aa");
  expect(textsOf(rows)).toEqual(["Aa", "BB", "Aa"]);
  expect(numbersOf(rows)).toEqual([0, 1, 0]);
});

test("hundreds of texts of one hash are read as they are, shared or not", () => {
  const alike = Array.from({ length: 512 }, (_, at) =>
    at.toString(2).padStart(9, "0").replaceAll("0", "Aa").replaceAll("1", "BB"),
  );
  const rows = rowsOf(...alike, ...alike);
  expect(textsOf(rows)).toEqual([...alike, ...alike]);
  expect(new Set(numbersOf(rows)).size).toBeLessThan(20);
});

test("each of ten thousand texts is read as it stands; the first thousands are numbered from 0 on", () => {
  const texts = Array.from({ length: 10_000 }, (_, at) => `B${at}`);
  const rows = rowsOf(...texts, ...texts);
  expect(textsOf(rows)).toEqual([...texts, ...texts]);
  const numbers = numbersOf(rows.slice(0, 10_000)).filter((number) => number !== -1);
  expect(numbers).toEqual(numbers.map((_, at) => at));
  expect(numbers.length).toBeGreaterThan(3000);
});

test("a column of names is no longer looked through once thousands of new ones came", () => {
  const names = Array.from({ length: 9000 }, (_, at) => `B${at}`);
  const [last] = rowsOf(...names, "B0").slice(-1);
  expect([last?.at(0).text, last?.numberAt(0)]).toEqual(["B0", -1]);
});

test.each([
  { said: "nothing", text: "", kind: "blank" },
  { said: "spaces", text: "  ", kind: "blank" },
  { said: "a hard space", text: "\u00a0", kind: "blank" },
  { said: "a remark too long to repeat", text: "rain ".repeat(20), kind: "text" },
])("$said is a $kind cell with its text", ({ text, kind }) => {
  expect(rowsOf(`${text},beside`)[0]?.at(0)).toEqual({ text, kind, value: null });
});

test("a row ends where it ends: beyond its cells nothing stands, whatever the next row says", () => {
  const [first] = rowsOf("3.5", "4");
  expect([first?.at(1), first?.numberAt(1), first?.cells.length]).toEqual([BLANK, -1, 1]);
});

test.each([
  ["spaces", " "],
  ["nothing", ""],
  ["hard spaces", "\u00a0\u2009"],
])("a row of %s is none and leaves no trace in the next", (_, text) => {
  const cells = new TextCells();
  for (const column of [0, 1]) cells.add(text, 0, text.length, column);
  expect(cells.row(2, 2)).toBeNull();
  cells.add("4", 0, 1, 0);
  expect(cells.row(3, 1)?.cells.map((cell) => cell.text)).toEqual(["4"]);
  cells.add(text, 0, text.length, 0);
  expect(cells.row(4, 1)).toBeNull();
});
