import { expect, test } from "vitest";
import { checkInWords } from "#app/_words/checks";
import { choiceInWords, settlingsOf, usualOf } from "#app/_words/choices";
import {
  counted,
  dayInWords,
  daysInWords,
  listInWords,
  momentInWords,
  monthInWords,
  spanInWords,
} from "#app/_words/days";
import { factInWords } from "#app/_words/facts";
import { figureInWords, intervalInWords, missingInWords, numberInWords, valueInWords } from "#app/_words/figures";
import { fuelSpanInWords } from "#app/_words/fuel";
import { GROUPS, MEASURE_WORDS } from "#app/_words/measures";
import { reasonInWords, reasonsInWords } from "#app/_words/problems";
import { answerInWords, exampleFor, questionInWords } from "#app/_words/questions";
import { columnInWords, totalInWords, totalsInWords } from "#app/_words/understood";
import type { Check } from "#server/measures/checks";
import { known, unknown } from "#server/terms/figure";
import type { FileQuestion, RowRead } from "#server/terms/row";

const asKnownOn = { ledgerSize: 7, time: null };

test("days have their month as a word, so that nobody takes it for the day", () => {
  expect(dayInWords("2031-03-31")).toBe("31 Mar 2031");
  expect(monthInWords("2031-12")).toBe("December 2031");
  expect(momentInWords("2031-03-31T14:05:09.123Z")).toBe("31 Mar 2031, 14:05 UTC");
  expect(spanInWords("2031-03-03", "2031-03-17")).toBe("3 to 17 Mar 2031");
  expect(spanInWords("2031-03-03", "2031-04-02")).toBe("3 Mar 2031 to 2 Apr 2031");
  expect(spanInWords("2031-03-03", null)).toBe("from 3 Mar 2031");
  expect(daysInWords(["2031-03-01", "2031-03-02", "2031-03-03"], 2)).toBe("1 Mar 2031, 2 Mar 2031 and 1 more");
  expect(listInWords(["a", "b", "c"])).toBe("a, b and c");
  expect(counted(1, "row")).toBe("1 row");
  expect(counted(1204, "row waits", "rows wait")).toBe("1,204 rows wait");
  expect(() => monthInWords("2031-13")).toThrow("13 is no month");
});

test("a figure is never a bare number", () => {
  const restsOn = { used: 41, here: 45, owed: 50, of: "batches" } as const;
  const figure = known({
    value: 0.3268,
    unit: "kg/kg",
    restsOn,
    interval: { low: 0.312, high: 0.3421, level: 0.95 },
    missingRange: { low: 0.29, high: 0.37 },
    asKnownOn,
  });
  expect(figureInWords(figure)).toBe(
    "32.7 % (31.2 to 34.2), rests on 41 of 50 batches, 29.0 to 37.0 with whatever is missing",
  );
  expect(intervalInWords({ ...figure, interval: null })).toBeNull();
  expect(missingInWords({ ...figure, restsOn: { ...restsOn, used: 50 } })).toBeNull();
  expect(figureInWords(unknown({ why: "no-fuel-known", unit: "MJ/kg", restsOn, asKnownOn }))).toBe(
    "none: no fuel known",
  );
});

test("numbers have a true minus and the digits of their unit", () => {
  expect(numberInWords(-0.012, "share")).toBe("−1");
  expect(valueInWords(1234.56, "kg")).toBe("1,234.6 kg");
  expect(valueInWords(5.8244, "MJ/kg")).toBe("5.82 MJ per kg");
});

test("every figure stands in exactly one group of the page", () => {
  const shown = GROUPS.flatMap(({ measures }) => measures);
  expect([...shown].sort()).toEqual(Object.keys(MEASURE_WORDS).sort());
  expect(new Set(shown).size).toBe(shown.length);
});

test("a column is told with its meaning, unit and why", () => {
  const column = {
    column: "C",
    heading: "Dried (g)",
    meaning: "dried",
    unit: "g",
    unitFrom: "heading",
    decimalMark: ",",
    sure: "sure",
    why: "heading-known",
  } as const;
  expect(columnInWords(column)).toBe("is dried out, in g, with decimal commas; the heading says so.");
  expect(columnInWords({ ...column, unitFrom: "site", decimalMark: null })).toBe(
    "is dried out, in g (the site has declared it); the heading says so.",
  );
  expect(columnInWords({ ...column, meaning: null, why: "heading-unknown" })).toContain("kept, sealed");
  expect(columnInWords({ ...column, sure: "asked", why: "heading-unclear" })).toContain("not clear yet");
});

test("a total that differs from its rows is shown with both numbers; totals that agree are only counted", () => {
  const total = { at: { sheet: "June", row: 9, column: "B" }, meaning: "fresh", written: 103.5, read: 103.5 } as const;
  expect(totalInWords(total)).toBe(
    "Row 9: the log's own total of fresh in is 103.5 kg; its rows add up to 103.5 kg. They agree.",
  );
  expect(totalInWords({ ...total, read: 98.5 })).toContain(
    "is 103.5 kg; its rows add up to 98.5 kg. They differ by 5 kg: look for a row",
  );
  expect(totalInWords({ ...total, read: 103.46 })).toContain(
    "They differ by 0.04 kg, which is how the total was rounded",
  );
  expect(totalInWords({ ...total, written: 103, read: 103.4 })).toContain("look for a row");
  expect(totalsInWords([total, total, { ...total, read: 98.5 }])).toEqual([
    expect.stringContaining("They differ by 5 kg"),
    "2 totals of the log agree with what its rows add up to.",
  ]);
  expect(totalsInWords([])).toEqual([]);
  const many = totalsInWords(Array.from({ length: 9000 }, () => ({ ...total, read: 98.5 })));
  expect([many.length, many[20]]).toEqual([21, "8,980 more totals differ."]);
});

const held: RowRead = {
  sheet: "June",
  row: 14,
  fate: "held",
  reasons: [{ code: "out-more-than-in", at: { sheet: "June", row: 14, column: "C" }, text: "5,2" }],
  site: null,
  day: "2031-06-03",
  batch: {
    day: "2031-06-03",
    number: null,
    pan: null,
    startMinute: null,
    harvest: null,
    method: "sand-pan",
    grain: "load",
    loads: 1,
    fresh: { exact: "1.7", value: 1.7 },
    dried: { exact: "5.2", value: 5.2 },
    driedToCome: false,
    minutes: null,
    endMinute: null,
    rejects: null,
    sandKg: null,
    sandCycle: null,
    newSand: null,
    crushTest: null,
    crisp: null,
    colour: null,
    moistureReading: null,
    waterActivity: null,
  },
  driedOnly: false,
  fuel: [],
  cells: [
    { column: "B", meaning: "fresh", text: "1,7" },
    { column: "C", meaning: "dried", text: "5,2" },
  ],
  sealed: [],
};

test("two weights that were exchanged can be put right at once, with what follows", () => {
  const exchanged = { put: "1.7 kg", yieldThen: 1.7 / 5.2, with: { column: "B", put: "5.2 kg" } };
  const reason = { code: "out-more-than-in", at: { sheet: "June", row: 14, column: "C" }, text: "5,2" } as const;
  const [both, stands] = settlingsOf(held, [{ ...reason, choices: [exchanged] }]);
  expect(both?.says).toBe(
    "The two weights were exchanged: 5.2 kg fresh in, 1.7 kg dried out, which makes a dry yield of 33 %",
  );
  expect(JSON.parse(both?.value ?? "")).toEqual({ "June!C14": "1.7 kg", "June!B14": "5.2 kg" });
  expect(stands?.says).toMatch(/^“5,2” stands as written, and counts so, with a flag/);
  expect(JSON.parse(stands?.value ?? "")).toEqual(["June!C14"]);
});

test.each([
  { code: "mass-not-a-number", text: "abc", says: "“abc” stands as written: the row counts without it, with a flag" },
  { code: "row-too-wide", text: "", says: expect.stringMatching(/^It stands as written, and counts so, with a flag/) },
  { code: "day-missing", text: "", says: undefined }, // a row without a day is of no month
  { code: "fuel-not-a-number", text: "two", says: undefined }, // a day without its fuel would look thrifty
] as const)("“$text” held as $code may stand: $says", ({ code, text, says }) => {
  const at = { sheet: "June", row: 14, column: code === "row-too-wide" ? null : "B" };
  expect(settlingsOf(held, [{ code, at, text }])[0]?.says).toEqual(says);
});

test("a doubt about both weights is one question with an answer for each and one for both", () => {
  const doubt = (column: string, text: string, put: string) =>
    ({
      code: "unit-slip-suspected",
      at: { sheet: "June", row: 14, column },
      text,
      choices: [{ put, yieldThen: 0.3 }],
    }) as const;
  const settlings = settlingsOf(held, [doubt("C", "1490", "1.49 kg"), doubt("B", "4,9", "4900 kg")], {
    fresh: 5,
    dried: 1.5,
  });
  expect(settlings.map(({ says }) => says)).toEqual([
    "dried out is 1.49 kg, which makes a dry yield of 30 %",
    "fresh in is 4900 kg, which makes a dry yield of 30 %, 980 times the 5 kg that is usual here, which cannot be",
    expect.stringMatching(/^“1490” and “4,9” stand as written, and count so, with a flag/),
  ]);
});

test("what is usual in a log is the middle of its clear loads, and nothing where they are few", () => {
  const load = (fate: "counted" | "held", fresh: number) =>
    ({ ...held, fate, batch: { ...held.batch, fresh: { exact: String(fresh), value: fresh } } }) as RowRead;
  const rows = [load("counted", 5), load("counted", 5.4), load("counted", 4.8), load("held", 4900)];
  expect(usualOf(rows).fresh).toBe(5);
  expect(usualOf(rows.slice(1)).fresh).toBeNull();
});

test("a choice says what follows from it", () => {
  expect(choiceInWords({ put: "3.5 kg", yieldThen: 0.347 })).toBe("3.5 kg, which makes a dry yield of 35 %");
  expect(choiceInWords({ put: "2031-06-03", yieldThen: null })).toBe("3 Jun 2031");
  expect(choiceInWords({ put: "5.2 kg", yieldThen: 3.06 })).toContain("306 %: more than went in, which cannot be");
  expect(choiceInWords({ put: "1h20", yieldThen: null })).toBe("1h20: 80 minutes");
  expect(choiceInWords({ put: "1.2 h", yieldThen: null })).toBe("1.2 h: 72 minutes");
  expect(choiceInWords({ put: "0 kg", yieldThen: 0 })).toContain("0 %: unusual");
});

test("a question about dates shows what each answer makes of a date of the log", () => {
  const question: FileQuestion = { code: "day-order", sheet: "June", column: null, choices: ["dmy", "mdy"] };
  const row: RowRead = {
    ...held,
    reasons: [{ code: "day-order-unclear", at: { sheet: "June", row: 2, column: "A" }, text: "3/6/2031" }],
  };
  const example = exampleFor(question, [held, row]);
  expect(questionInWords(question, "")).toContain("the day or the month");
  expect(answerInWords("day-order", "dmy", example)).toBe("The day comes first: “3/6/2031” is 3 Jun 2031");
  expect(answerInWords("day-order", "mdy", example)).toBe("The month comes first: “3/6/2031” is 6 Mar 2031");
  expect(answerInWords("day-order", "mdy", null)).toBe("The month comes first");
  expect(answerInWords("decimal-mark", ",", "1,250")).toBe("The comma stands before decimals: “1,250” is 1.250");
});

test("checks are questions, not verdicts", () => {
  const check: Check = { code: "fuel-above-usual", days: [], value: 22.0231, limit: 20 };
  expect(checkInWords(check)).toContain("22.02 MJ per kg driven off is more than is usual (20)");
  expect(checkInWords(check)).toMatch(/\?$/);
});

test("a span of fuel tells days, amount and how it is known", () => {
  const span = {
    site: 1,
    from: "2031-06-03",
    to: "2031-06-10",
    fuel: "lpg",
    unit: "kg",
    how: "cylinder-changed",
    low: 5.5,
    best: 6,
    high: 6,
    shared: true,
  } as const;
  expect(fuelSpanInWords(span)).toBe(
    "gas (LPG), 3 to 10 Jun 2031: 6 kg (5.5 to 6), by cylinders changed, shared with the kitchen",
  );
  expect(fuelSpanInWords({ ...span, how: "pending", low: null, best: null, high: null, shared: false })).toContain(
    "still open",
  );
});

test("a declaration says what it declares, or that it was taken back", () => {
  const schedule = { weekdays: [1, 3], perDay: 16, of: "days" } as const;
  expect(factInWords({ kind: "schedule", key: "", value: { ...schedule, weekdays: [1, 3] } })).toBe(
    "Mon, Wed: one line a day, of about 16 loads",
  );
  expect(factInWords({ kind: "closed", key: "", value: null })).toBe("taken back");
});

test("two weights of which one is in another unit are told together, and one alone alone", () => {
  const [dried, fresh] = [
    { code: "unit-slip-suspected", text: "1,2" },
    { code: "unit-slip-suspected", text: "3.500" },
  ] as const;
  expect(reasonsInWords([dried, fresh])).toMatch(/^“3.500” and “1,2” do not go together/);
  expect(reasonsInWords([dried])).toBe(reasonInWords(dried));
});

test("a dried weight of several loads that came one by one is not told to wait for them", () => {
  expect(reasonInWords({ code: "dried-without-load", text: "3+4+5" })).toMatch(
    /several loads together, “3\+4\+5”. Open the log and say which loads these are/,
  );
  expect(reasonInWords({ code: "dried-without-load", text: "" })).toMatch(/joined by itself/);
});

test("several cells that stand as written are left out together", () => {
  const at = (column: string) => ({ sheet: "June", row: 14, column });
  const doubts = [
    { code: "mass-not-a-number", at: at("B"), text: "x" },
    { code: "mass-not-a-number", at: at("C"), text: "y" },
  ] as const;
  expect(settlingsOf(held, doubts)[0]?.says).toMatch(/the row counts without them, with a flag$/);
});
