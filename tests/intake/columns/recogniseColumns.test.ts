import { expect, test } from "vitest";
import { faultsOf } from "#server/intake/faults/faultsOf";
import { columns, lines, readLines } from "../readings";

test.each<{ said: string; log: string[]; found: string[]; asked?: string[] }>([
  {
    said: "a FR “charge” that counts up is the number of the load",
    log: [
      "Date | Charge | Entrée (kg) | Sortie (kg)",
      "13/6/2031 | 1 | 10 | 3",
      "13/6/2031 | 2 | 10 | 3",
      "14/6/2031 | 1 | 10 | 3",
    ],
    found: ["A day", "B batch-number", "C fresh kg", "D dried kg"],
  },
  {
    said: "a FR “charge (kg)” is the fresh weight where there is no other",
    log: ["Date | Charge (kg) | Sortie (kg)", "13/6/2031 | 10 | 3"],
    found: ["A day", "B fresh kg", "C dried kg"],
  },
  {
    said: "a FR “charge” of other numbers is asked about",
    log: [
      "Date | Charge | Entrée (kg) | Sortie (kg)",
      "13/6/2031 | 1500 | 10 | 3",
      "14/6/2031 | 900 | 10 | 3",
      "15/6/2031 | 40 | 9 | 3",
    ],
    found: ["A day", "B -", "C fresh kg", "D dried kg"],
    asked: ["B batch-number fresh loads"],
  },
  {
    said: "a lot among weights is the batch number",
    log: ["Date | Lot | In (kg) | Out (kg)", "13/6/2031 | A7 | 10 | 3"],
    found: ["A day", "B batch-number", "C fresh kg", "D dried kg"],
  },
  {
    said: "a lot beside a batch number is the packed one",
    log: ["Date | Batch | In (kg) | Out (kg) | Lot", "13/6/2031 | 4 | 10 | 3 | A7"],
    found: ["A day", "B batch-number", "C fresh kg", "D dried kg", "E packed"],
  },
  {
    said: "“In” and “Out” over clock times are start and end",
    log: ["Date | In | Out | Fresh (kg) | Dried (kg)", "13/6/2031 | 8:00 | 9:30 | 10 | 3"],
    found: ["A day", "B start", "C end", "D fresh kg", "E dried kg"],
  },
  {
    said: "of a day of the week and a date the date is the day",
    log: ["Day | Date | In (kg) | Out (kg)", "Friday | 13/6/2031 | 10 | 3"],
    found: ["A -", "B day", "C fresh kg", "D dried kg"],
  },
  {
    said: "a column of dates without a heading is the day",
    log: [" | In (kg) | Out (kg)", "13/6/2031 | 10 | 3"],
    found: ["A day", "B fresh kg", "C dried kg"],
  },
  {
    said: "“Fuel” over numbers is an amount, over words the kind",
    log: ["Date | In (kg) | Out (kg) | Fuel | Fuel", "13/6/2031 | 10 | 3 | wood | 4 kg"],
    found: ["A day", "B fresh kg", "C dried kg", "D fuel-type", "E fuel-amount"],
  },
  {
    said: "of a running number and a batch number the batch number counts",
    log: ["No | Batch no | Date | In (kg) | Out (kg)", "1 | 118 | 13/6/31 | 10 | 3"],
    found: ["A -", "B batch-number", "C day", "D fresh kg", "E dried kg"],
  },
  {
    said: "a units row tells what an unclear heading is",
    log: ["Date | Charge | Out", " | kg | kg", "13/6/31 | 10 | 3"],
    found: ["A day", "B fresh kg", "C dried kg"],
  },
  {
    said: "two fresh weights are asked about",
    log: ["Date | Fresh (kg) | Dried (kg) | Fresh (kg)", "13/6/2031 | 10 | 3 | 8"],
    found: ["A day", "B -", "C dried kg", "D -"],
    asked: ["B fresh", "D fresh"],
  },
  {
    said: "bare minutes from ten on are minutes, small ones are asked about",
    log: ["Date | In (kg) | Out (kg) | Duration", "13/6/2031 | 10 | 3 | 2"],
    found: ["A day", "B fresh kg", "C dried kg", "D minutes"],
    asked: ["D min h"],
  },
  {
    said: "headings that only look like a program's own names are nothing",
    log: ["Date | In (kg) | Out (kg) | __proto__ | constructor", "13/6/2031 | 10 | 3 | a | b"],
    found: ["A day", "B fresh kg", "C dried kg", "D -", "E -"],
  },
  {
    said: "a table of a later kind in the same sheet is read with its own headings",
    log: ["Date | In (kg) | Out (kg)", "13/6/2031 | 10 | 3", "", "Date | Wood (kg)", "13/6/2031 | 14"],
    found: ["A day", "B fresh kg", "C dried kg", "A day", "B firewood kg"],
  },
])("$said", ({ log, found, asked = [] }) => {
  const read = readLines({}, ...log);
  expect(columns(read)).toEqual(found);
  expect(read.questions.map(({ column, choices }) => [column, ...choices].join(" "))).toEqual(asked);
});

test("an unclear column that may be the missing weight holds its rows until it is answered", () => {
  const log = ["Date | Weight | Out (kg)", "13/6/2031 | 10 kg | 3"];
  expect(lines(readLines({}, ...log))[1]).toBe("2 counted 2031-06-13 10>3 | unit-from-cell");
  const two = ["Date | Weight | Weight", "13/6/2031 | 10 kg | 3 kg"];
  expect(lines(readLines({}, ...two))[1]).toBe("2 held 2031-06-13 ?>? | column-unclear column-unclear");
  const twice = ["Date | Fresh (kg) | Fresh (kg)", "13/6/2031 | 10 | 8"];
  expect(lines(readLines({}, ...twice))[1]).toBe("2 held 2031-06-13 ?>? | column-unclear column-unclear");
  expect(lines(readLines({ answers: { meanings: { "Log!C": "ignore" } } }, ...twice))[1]).toBe(
    "2 counted 2031-06-13 10>? | dried-to-come",
  );
});

test.each([
  ["Grobu (kg)", "fresh", "kg", "2 counted 2031-06-13 5.2>1.7 80min"],
  ["Grobu / lb", "fresh", "lb", "2 counted 2031-06-13 2.358680324>1.7 80min | yield-unusual"],
  ["Grobu wi kg", "fresh", "kg", "2 counted 2031-06-13 5.2>1.7 80min"],
  ["Grobu (lb)", "pan", null, "2 counted 2031-06-13 pan 5.2 ?>1.7 80min dried only | fresh-missing"],
  ["Grobu", "fresh", null, "2 held 2031-06-13 ?>1.7 80min | mass-unit-unknown"],
] as const)(
  "once somebody answers what “%s” means, it is %s in the unit of its heading",
  (heading, meaning, unit, row) => {
    const log = [`Date | ${heading} | Out (kg) | Minutes`, "13/6/2031 | 5.2 | 1.7 | 80"];
    expect(readLines({}, ...log).tables[0]?.columns[1]).toMatchObject({ meaning: null, unit: null });
    const read = readLines({ answers: { meanings: { "Log!B": meaning } } }, ...log);
    expect(read.tables[0]?.columns[1]).toMatchObject({ meaning, unit, unitFrom: unit === null ? null : "heading" });
    expect(lines(read)[1]).toBe(row);
    expect(read.questions.map(({ code }) => code)).toEqual(unit === null && meaning === "fresh" ? ["column-unit"] : []);
  },
);

test("the unit in a heading that nobody knows counts for times too, and an answer about the unit wins over it", () => {
  const log = ["Date | In (kg) | Out (kg) | Grobu (h)", "13/6/2031 | 10 | 3 | 2"];
  const said = { meanings: { "Log!D": "minutes" } } as const;
  expect(lines(readLines({ answers: said }, ...log))[1]).toBe("2 counted 2031-06-13 10>3 120min");
  expect(lines(readLines({ answers: { ...said, units: { "Log!D": "min" } } }, ...log))[1]).toContain("2min");
});

test("more weights out than in on most rows are held, and answered once for both columns", () => {
  const log = ["Date | In (kg) | Out (kg)", "13/6/2031 | 3 | 10", "14/6/2031 | 3.2 | 10", "15/6/2031 | 3.1 | 10"];
  const read = readLines({}, ...log);
  expect(read.questions).toEqual([]);
  expect(faultsOf(read, {}).map(({ code }) => code)).toEqual(["in-out-exchanged"]);
  expect(read.counts.held).toBe(3);
  const answers = { meanings: { "Log!B": "dried", "Log!C": "fresh" } } as const;
  expect(readLines({ answers }, ...log).counts.counted).toBe(3);
});
