import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { canonical, commitment } from "#server/evidence/canonical";
import { Digest, digestOf } from "#server/evidence/digest";
import type { TableSaid } from "#server/terms/tableSaid";

// RFC 8785, section 3.2.2 to 3.2.4: the sample object with its canonical form.
test("the sample of RFC 8785 takes its canonical form", () => {
  const sample = {
    numbers: [Number("333333333.33333329"), 1e30, 4.5, 2e-3, 1e-27],
    string: "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"/",
    literals: [null, true, false],
  };
  expect(canonical(sample)).toBe(
    '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
  );
});

test("a digest does not depend on the order of rows or of keys", () => {
  expect(digestOf({ b: [{ x: 1, y: 2 }, { x: 2 }], a: [] })).toBe(digestOf({ a: [], b: [{ x: 2 }, { y: 2, x: 1 }] }));
  expect(digestOf({ b: [{ x: 1 }] })).not.toBe(digestOf({ b: [{ x: 2 }] }));
});

test("a column that says nothing, as one added later does of earlier rows, changes no digest", () => {
  expect(digestOf({ b: [{ x: 1, later: null }] })).toBe(digestOf({ b: [{ x: 1 }] }));
  expect(digestOf({ b: [{ x: 1, later: 0 }] })).not.toBe(digestOf({ b: [{ x: 1 }] }));
});

test("a commitment changes with the salt", () => {
  expect(commitment("00".repeat(16), "Amara")).not.toBe(commitment("01".repeat(16), "Amara"));
});

test("rows given column by column have the digest that they have one by one", () => {
  const rows = [
    { id: "b", day: "2032-01-02", kg: 3.1, note: null, cells: [{ text: 'a "b"\n', column: "A" }] },
    { id: "a", day: "2032-01-02", kg: null, note: null, cells: [] },
    { id: "c", day: "2032-01-02", kg: 1e21, note: null, cells: [{ column: "B", text: "€" }] },
  ];
  const column = (name: keyof (typeof rows)[number]) => ({
    name,
    each: rows.map((row) => (row[name] === null ? null : canonical(row[name]))),
  });
  const columns = [
    column("kg"),
    column("id"),
    { name: "note", all: null, each: null },
    { name: "day", all: '"2032-01-02"', each: null },
    column("cells"),
  ];
  expect(digestOfColumns({ rows: { rows: rows.length, columns } })).toBe(digestOf({ rows }));
  const first = { rows: 3, columns: [{ name: "day", all: '"2032-01-02"', each: null }, column("kg")] };
  expect(digestOfColumns({ a: first })).toBe(digestOf({ a: rows.map(({ day, kg }) => ({ day, kg })) }));
  const kgFirst = { rows: 3, columns: [column("kg"), column("id")] };
  expect(digestOfColumns({ a: kgFirst })).toBe(digestOf({ a: rows.map(({ id, kg }) => ({ id, kg })) }));
  const bare = { rows: 3, columns: [{ name: "id", each: ["b", null, "€ c"], bare: true }, column("kg")] };
  const same = [
    { id: "b", kg: 3.1 },
    { id: null, kg: null },
    { id: "€ c", kg: 1e21 },
  ];
  expect(digestOfColumns({ a: bare })).toBe(digestOf({ a: same }));
});

test("many long lines, in order or not, are hashed as one text of their canonical forms in order", () => {
  const said = (i: number) => ({ i, text: i % 1000 === 7 ? "ø".repeat(700_000) : `${"x".repeat(i % 300)}€${i}` });
  const rows = Array.from({ length: 4_000 }, (_, i) => said(i));
  for (const given of [rows, rows.toReversed()]) {
    const lines = given.map((row) => `${canonical(row)}\n`).sort();
    expect(digestOf({ a: given })).toBe(
      createHash("sha256")
        .update(`a\n${lines.join("")}`)
        .digest("hex"),
    );
  }
});

function digestOfColumns(changes: Readonly<Record<string, TableSaid>>): string {
  const digest = new Digest();
  for (const [table, said] of Object.entries(changes)) digest.add(table, said);
  return digest.hex();
}

test("keys in order and out of order are written alike", () => {
  expect(canonical({ a: 1, b: [{ c: undefined, d: "x" }] })).toBe(canonical({ b: [{ d: "x", c: undefined }], a: 1 }));
  expect(canonical({ "9": 1, "10": 2 })).toBe('{"10":2,"9":1}');
  expect(canonical([undefined, -0])).toBe("[null,0]");
});
