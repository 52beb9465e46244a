import { expect, test } from "vitest";
import { faultsOf } from "#server/intake/faults/faultsOf";
import { confirmedNow, inFull, isInShort } from "#server/intake/settle/inFull";
import { faultKey } from "#server/terms/fault";
import { lines, readLines } from "../readings";

const SWAPPED = [
  "Date | In (kg) | Out (kg)",
  "13/6/2031 | 3 | 10",
  "14/6/2031 | 3.2 | 10",
  "15/6/2031 | 3.1 | 10",
  "16/6/2031 | 10 | abc",
];

test("a yes to a fault becomes what it changes, and is put right once and no more", () => {
  const read = readLines({}, ...SWAPPED);
  const [fault] = faultsOf(read, {});
  if (fault === undefined) throw new Error("no fault was found");
  const said = { faults: { [faultKey(fault)]: "yes" as const } };
  expect(isInShort(said)).toBe(true);
  const whole = inFull(read, [fault], said);
  expect(whole).toEqual({
    meanings: { "Log!B": "dried", "Log!C": "fresh" },
    faults: { "in-out-exchanged Log!2": "put-right" },
  });
  expect(isInShort(whole)).toBe(false);
  expect(inFull(read, [fault], whole)).toEqual(whole);
});

test("a no changes nothing, and a yes that nothing follows from is kept as it was said", () => {
  const read = readLines({}, ...SWAPPED);
  const [fault] = faultsOf(read, {});
  if (fault === undefined) throw new Error("no fault was found");
  const key = faultKey(fault);
  expect(inFull(read, [fault], { faults: { [key]: "no" } })).toEqual({ faults: { [key]: "no" } });
  expect(inFull(read, [{ ...fault, answers: null }], { faults: { [key]: "yes" } })).toEqual({
    faults: { [key]: "yes" },
  });
});

test("what is said of all faults of a kind is said of each, and what is said of one fault wins", () => {
  const set = (day: number) => [`${day}/6/2031 | 10 | `, `${day}/6/2031 | 11 | 7`];
  const read = readLines({}, "Date | In (kg) | Out (kg)", "13/6/2031 | 10 | 3.3", ...[14, 15, 16].flatMap(set));
  const faults = faultsOf(read, {});
  expect(faults.map(faultKey)).toEqual([3, 5, 7].map((row) => `weighed-together Log!${row}`));
  const said = { alike: { "weighed-together Log": "yes" }, faults: { "weighed-together Log!5": "no" as const } };
  expect(isInShort(said)).toBe(true);
  expect(confirmedNow(faults, said).map(({ rows }) => rows)).toEqual([
    [3, 4],
    [7, 8],
  ]);
  const whole = inFull(read, faults, said);
  expect(whole).toEqual({
    together: [
      ["Log!4", "Log!3"],
      ["Log!8", "Log!7"],
    ],
    faults: {
      "weighed-together Log!3": "put-right",
      "weighed-together Log!5": "no",
      "weighed-together Log!7": "put-right",
    },
  });
  expect(isInShort(whole)).toBe(false);
  const none = inFull(read, faults, { alike: { "weighed-together Log": "no" } });
  expect(Object.values(none.faults ?? {})).toEqual(["no", "no", "no"]);
});

test("what is said of all rows of a doubt is said of each, and what is said of one row wins", () => {
  const read = readLines({}, ...SWAPPED);
  const kind = "out-more-than-in Log!C";
  expect(inFull(read, [], { alike: { [kind]: "0" }, cells: { "Log!C3": "4 kg" } })).toEqual({
    cells: {
      "Log!C2": "3 kg",
      "Log!B2": "10 kg",
      "Log!C3": "4 kg",
      "Log!B3": "10 kg",
      "Log!C4": "3.1 kg",
      "Log!B4": "10 kg",
    },
  });
  expect(inFull(read, [], { alike: { [kind]: "as-written" } })).toEqual({ asWritten: ["Log!C2", "Log!C3", "Log!C4"] });
  expect(inFull(read, [], { alike: { [kind]: "aside" } })).toEqual({ setAside: ["Log!2", "Log!3", "Log!4"] });
  expect(inFull(read, [], { alike: { [kind]: "7" } })).toEqual({});
  expect(inFull(read, [], { alike: { "day-missing Log!A": "as-written" } })).toEqual({});
});

test("what stands as written counts with a flag that says the doubt; what cannot be read there is left out", () => {
  const read = readLines({ answers: { asWritten: ["Log!C2", "Log!C5"] } }, ...SWAPPED);
  expect(lines(read)).toEqual([
    expect.stringMatching(/^1 /),
    expect.stringMatching(/^2 counted 2031-06-13 3>10 \| accepted-as-written/),
    expect.stringMatching(/^3 held /),
    expect.stringMatching(/^4 held /),
    expect.stringMatching(/^5 counted 2031-06-16 10>\? \| accepted-as-written dried-missing/),
  ]);
  expect(read.rows[1]?.reasons[0]).toMatchObject({ doubt: "out-more-than-in", text: "10" });
  expect(read.rows[4]?.cells.find(({ meaning }) => meaning === "dried")?.text).toBe("abc");
});

test("fuel that cannot be read does not stand: a day without it would look thrifty", () => {
  const log = ["Date | In (kg) | Out (kg) | Gas (kg)", "13/6/2031 | 10 | 3.2 | two"];
  expect(readLines({ answers: { asWritten: ["Log!D2", "Log!2"] } }, ...log).counts.held).toBe(1);
});
