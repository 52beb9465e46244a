import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { expect, test } from "vitest";
import { csvOf } from "#server/intake/grid/csv";
import { type Dialect, eachRecord, recordsOf } from "#server/intake/grid/records";

const RFC: Dialect = { delimiter: ",", quote: '"', escape: '"', width: 0, aligned: null };
const cells = (text: string, dialect: Partial<Dialect> = {}) =>
  recordsOf(text, { ...RFC, ...dialect }).map((record) => record.cells);

// Source: RFC 4180, section 2, definitions 1 to 7.
test.each([
  { said: "1: records on lines of their own, ended by CRLF", text: "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n" },
  { said: "2: the last record may have no ending", text: "aaa,bbb,ccc\r\nzzz,yyy,xxx" },
  { said: "5: cells may be enclosed in double quotes", text: '"aaa","bbb","ccc"\r\nzzz,yyy,xxx' },
])("RFC 4180 definition $said", ({ text }) => {
  expect(cells(text)).toEqual([
    ["aaa", "bbb", "ccc"],
    ["zzz", "yyy", "xxx"],
  ]);
});

test.each([
  { said: "4: spaces belong to a cell", text: "aaa, bbb ,ccc", read: [["aaa", " bbb ", "ccc"]] },
  {
    said: "6: line ends, quotes and commas inside quotes",
    text: '"aaa","b\r\nb,b","ccc"',
    read: [["aaa", "b\r\nb,b", "ccc"]],
  },
  { said: "7: a quote inside is doubled", text: '"aaa","b""bb","ccc"', read: [["aaa", 'b"bb', "ccc"]] },
])("RFC 4180 definition $said", ({ text, read }) => {
  expect(cells(text)).toEqual(read);
});

test.each([
  {
    said: "CR, LF and CRLF in one text",
    text: "a,b\rc,d\ne,f\r\ng,h",
    read: [
      ["a", "b"],
      ["c", "d"],
      ["e", "f"],
      ["g", "h"],
    ],
  },
  { said: "ragged records", text: "a,b,c\nd\ne,f,g,h", read: [["a", "b", "c"], ["d"], ["e", "f", "g", "h"]] },
  { said: "an empty record", text: "a,b\n\nc,d", read: [["a", "b"], [""], ["c", "d"]] },
  { said: "a delimiter at the end", text: "a,b,\n", read: [["a", "b", ""]] },
  { said: "a quote inside a cell without quotes", text: '12" pan,b', read: [['12" pan', "b"]] },
  { said: "a stray quote inside a quoted cell", text: '"12" pan",b', read: [['12" pan', "b"]] },
  { said: "a stray quote before the end of a quoted cell", text: '"pan, 12"","b"', read: [['pan, 12"', "b"]] },
  { said: "an extra quote before a quoted cell", text: 'a,""b, c","d"', read: [["a", '"b, c', "d"]] },
  { said: "an extra quote before a cell without quotes", text: '"a,b,"c, d"', read: [['"a', "b", "c, d"]] },
  { said: "spaces around a quoted cell", text: 'a, "b, c" ,d', read: [["a", "b, c", "d"]] },
  {
    said: "an unclosed quote at the end",
    text: 'a,"b\nc,d\n',
    read: [
      ["a", '"b'],
      ["c", "d"],
    ],
  },
  {
    said: "an unclosed quote before a quoted cell",
    text: 'a,"b\nc,"d, e"\n',
    read: [
      ["a", '"b'],
      ["c", "d, e"],
    ],
  },
])("$said is kept as it stands", ({ text, read }) => {
  expect(cells(text)).toEqual(read);
});

test("an unclosed quote does not swallow records up to a stray quote far below", () => {
  const text = 'day,pan,kg,note\n1,a,3.5,"open\n2,b,3.2,fine\n3,c,3.1,fine\n4,d,3.3,12"\n5,e,3,\n';
  const oddities = eachRecord(text, { ...RFC, width: 4 }, (record) => record.cells.length === 4);
  expect(cells(text, { width: 4 })).toHaveLength(6);
  expect(oddities.unclosed).toEqual([2]);
});

test.each([
  { said: "two characters", dialect: { delimiter: "||" }, text: 'a||"b||c"||d', read: [["a", "b||c", "d"]] },
  { said: "comma and space", dialect: { delimiter: ", " }, text: 'a, "b, c", d,e', read: [["a", "b, c", "d,e"]] },
  {
    said: "a backslash before quotes",
    dialect: { escape: "\\" },
    text: '"12\\" pan \\\\",b',
    read: [['12" pan \\', "b"]],
  },
  { said: "single quotes", dialect: { quote: "'" }, text: "'a, b','it''s'", read: [["a, b", "it's"]] },
  { said: "no delimiter", dialect: { delimiter: "" }, text: "a,b\nc", read: [["a,b"], ["c"]] },
])("a dialect with $said is read", ({ dialect, text, read }) => {
  expect(cells(text, dialect)).toEqual(read);
});

const cell = fc.string({
  unit: fc.constantFrom("a", "7", '"', ",", " ", "\n", "\r", "\r\n", "é", ";", "'"),
  maxLength: 6,
});
const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 6 });

test("well-formed RFC 4180 text is split as csv-parse splits it, and as it was written", () => {
  fc.assert(
    fc.property(table, fc.constantFrom("\r\n", "\n", "\r"), (rows, end) => {
      const text = rows.map((row) => row.map((one) => `"${one.replaceAll('"', '""')}"`).join(",")).join(end);
      const oracle: string[][] = parse(text, { relax_column_count: true, record_delimiter: ["\r\n", "\n", "\r"] });
      expect(cells(text)).toEqual(rows);
      expect(cells(text)).toEqual(oracle);
    }),
    { numRuns: 500 },
  );
});

test("what is printed as CSV is read back, whatever the cells", () => {
  fc.assert(
    fc.property(table, (rows) => {
      fc.pre(rows.every((row) => row.every((one) => !/^ +(?:"|$)/.test(one))));
      expect(cells(csvOf(rows))).toEqual(rows);
    }),
    { numRuns: 500 },
  );
});

test("no character is lost: cells and what stands between them make up the text", () => {
  const soup = fc.string({ unit: fc.constantFrom("a", '"', '""', ",", "\n", "\r\n", " ", ',"', '",'), maxLength: 40 });
  fc.assert(
    fc.property(soup, (text) => {
      const kept = recordsOf(text, RFC)
        .flatMap((record) => record.cells)
        .join("");
      const letters = (part: string) => part.replaceAll(/[^a]/g, "");
      expect(letters(kept)).toBe(letters(text));
    }),
    { numRuns: 1000 },
  );
});

test.each([
  { said: "opening quotes only", part: 'a,"b\n' },
  { said: "doubled quotes without an end", part: ',""x' },
  { said: "quotes at line starts", part: '"\n' },
  { said: "quotes and spaces", part: '"  "' },
  { said: "one long run of quotes", part: '"' },
])("the work stays linear for $said", ({ part }) => {
  const steps = (times: number) => {
    const text = part.repeat(times);
    const started = performance.now();
    eachRecord(text, { ...RFC, width: 3 }, () => true);
    return performance.now() - started;
  };
  steps(2_000);
  expect(steps(200_000)).toBeLessThan(2_000); // seconds would turn into many minutes if it were not
});
