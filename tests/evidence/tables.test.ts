import { expect, test } from "vitest";
import { laidOut } from "#server/evidence/table";
import { columnsExplained, TABLE_NAMES, TABLES } from "#server/evidence/tables";
import { answersListed } from "#server/evidence/tables/answers";
import { decisive, type RowItem } from "#server/evidence/tables/rowsNotCounted";
import type { ProblemCode } from "#server/terms/problem";

test("every table has a name of its own, and columns that each say what they hold", () => {
  expect([...TABLE_NAMES].sort()).toEqual([...Object.keys(TABLES), "columns"].sort());
  for (const [name, table] of Object.entries(TABLES)) {
    expect(table.name).toBe(name);
    expect(new Set(table.columns.map((column) => column.name)).size, name).toBe(table.columns.length);
    for (const column of table.columns) {
      expect(column.name).toMatch(/^[a-z][a-z0-9_]*$/);
      expect(column.says, `${name} ${column.name}`).not.toBe("");
    }
  }
});

test("the table of columns explains every column of every table, itself included", () => {
  const explained = columnsExplained().rows.map(([table, column]) => `${table} ${column}`);
  expect(explained).toContain("batches fresh_kg");
  expect(explained).toContain("columns says");
  expect(new Set(explained).size).toBe(explained.length);
});

const problem = (code: ProblemCode, column: string | null, text: string) => ({
  code,
  at: { sheet: "June", row: 4, column },
  text,
});

test("a held row is listed by what holds it; remarks that would not keep it from counting are left out", () => {
  const row: RowItem = {
    site: "OJ",
    log: "EV-1",
    sha256: null,
    state: "counted",
    sheet: "June",
    row: 4,
    fate: "held",
    reasons: [
      problem("minutes-missing", null, ""),
      problem("mass-not-a-number", "C", "=ten"),
      problem("day-missing", null, ""),
    ],
    cells: [
      { column: "A", meaning: "day", text: "" },
      { column: "C", meaning: "fresh", text: "=ten" },
    ],
    ledgerIndex: 3,
    sentences: ["One.", "Two."],
  };
  const { columns, rows } = laidOut(TABLES["rows-not-counted"], [row, { ...row, fate: "set-aside", cells: [] }]);
  const [held, aside] = rows.map((cells) => Object.fromEntries(columns.map(({ name }, at) => [name, cells[at]])));
  expect(held).toMatchObject({ reasons: "mass-not-a-number day-missing", column: "C", written: "=ten" });
  expect(held).toMatchObject({ cells: "A: ; C: =ten", sentences: "One. Two." });
  expect(aside).toMatchObject({ cells: null, column: null, written: null });
  expect(decisive({ fate: "set-aside", reasons: row.reasons })).toHaveLength(3);
});

test("answers are listed one by one in an order of their own, whatever the order in which they were given", () => {
  const given = {
    units: { "log!D": "g" },
    cells: { "log!C9": "3 kg", "log!C14": "2 kg" },
    setAside: ["log!7"],
    decimalMark: "," as const,
  };
  const listed = answersListed(given).map(({ asked, place, put }) => [asked, place, put]);
  expect(listed).toEqual([
    ["decimal-mark", null, ","],
    ["column-unit", "log!D", "g"],
    ["cell", "log!C14", "2 kg"],
    ["cell", "log!C9", "3 kg"],
    ["set-aside", "log!7", null],
  ]);
  const turned = { ...given, cells: { "log!C14": "2 kg", "log!C9": "3 kg" } };
  expect(answersListed(turned).map(({ asked, place, put }) => [asked, place, put])).toEqual(listed);
  expect(answersListed({})).toEqual([]);
});

test("what is not of its column's kind stops the table", () => {
  const shape = {
    name: "t",
    says: "",
    columns: [{ name: "kg", kind: "number" as const, unit: "kg", says: "", of: (v: string) => v }],
  };
  expect(laidOut(shape, ["3.20", "-1"]).rows).toEqual([["3.20"], ["-1"]]);
  expect(() => laidOut(shape, ["=1+1"])).toThrow("kg is a column of kind number");
});
