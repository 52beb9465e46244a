import fc from "fast-check";
import { expect, test } from "vitest";
import { answersOf, countAnswers } from "#app/send/answersOf";
import { packSaid, unpackSaid } from "#app/send/said";

test("fields of the form become answers, and what is left empty answers nothing", () => {
  const fields = {
    dayOrder: "dmy",
    decimalMark: "",
    "unit:June!B": "kg",
    "meaning:June!E": "ignore",
    "cell:June!C14": "3.5 kg",
    "own:June!C15": " 5.1 kg ",
    "cell:June!C16": "",
    "aside:June!17": "yes",
    said: "whatever",
    next: "look",
  };
  expect(answersOf(fields, null)).toEqual({
    dayOrder: "dmy",
    units: { "June!B": "kg" },
    meanings: { "June!E": "ignore" },
    cells: { "June!C14": "3.5 kg", "June!C15": "5.1 kg" },
    setAside: ["June!17"],
  });
});

test("what was typed wins over a choice for the same cell, and new answers over those given before", () => {
  const fields = {
    "cell:June!C14": "3.5 kg",
    "own:June!C14": "3.6 kg",
    "puts:June!15": '{"June!B15":"5.2 kg","June!C15":"1.7 kg"}',
    "aside:June!18": "yes",
  };
  const before = { decimalMark: "," as const, cells: { "June!C14": "3", "June!C13": "2" }, setAside: ["June!17"] };
  const answers = answersOf(fields, before);
  expect(answers).toEqual({
    decimalMark: ",",
    cells: { "June!C13": "2", "June!C14": "3.6 kg", "June!B15": "5.2 kg", "June!C15": "1.7 kg" },
    setAside: ["June!17", "June!18"],
  });
  expect(countAnswers(answers)).toBe(7);
});

test("a sheet's day, the clock and the years of a log are answered too", () => {
  const fields = { "day:3 June": "2031-06-03", "ownDay:3 June": "2031-06-04", clock: "dawn", years: "buddhist" };
  const answers = answersOf(fields, null);
  expect(answers).toEqual({ days: { "3 June": "2031-06-04" }, clock: "dawn", years: "buddhist" });
  expect(countAnswers(answers)).toBe(3);
  expect(unpackSaid(packSaid(answers) ?? "")).toEqual(answers);
});

test("faults, kinds of doubt, tables and what stands as written are answered too", () => {
  const fields = {
    "fault:in-out-exchanged June!2": "yes",
    "fault:rows-copied June!9": "no",
    "fault:rows-copied June!3": "",
    "alike:unit-slip-suspected June!D": "0",
    "alike:out-more-than-in June!D": "",
    "puts:June!7 out-more-than-in": '["June!D7"]',
    "leftOut:Stock!1": "yes",
    "readAgain:Fuel!2": "yes",
    "headings:July": "0",
    alone: "yes",
  };
  expect(answersOf(fields, { leftOut: ["Fuel!2"], asWritten: ["June!5"] })).toEqual({
    faults: { "in-out-exchanged June!2": "yes", "rows-copied June!9": "no" },
    alike: { "unit-slip-suspected June!D": "0" },
    asWritten: ["June!5", "June!D7"],
    leftOut: ["Stock!1"],
    headings: { July: 0 },
    alone: true,
  });
});

test("an answer that is taken back is gone, and nothing else with it", () => {
  const before = { dayOrder: "dmy", cells: { "June!C3": "3 kg", "June!C4": "4 kg" }, setAside: ["June!9"] } as const;
  const fields = { "forget:cells June!C3": "yes", "forget:setAside June!9": "yes", "forget:dayOrder ": "yes" };
  expect(answersOf(fields, before)).toEqual({ cells: { "June!C4": "4 kg" } });
  expect(answersOf({ forgetAll: "yes" }, before)).toEqual({});
});

test.each([
  { field: "meaning:June!C", value: "nonsense" },
  { field: "dayOrder", value: "ydm" },
  { field: "puts:June!3", value: "{" },
  { field: "puts:June!3", value: '{"June!C3":3}' },
])("a value of $field that no page of ours writes answers nothing: $value", ({ field, value }) => {
  expect(answersOf({ [field]: value }, null)).toEqual({});
});

test("answers in an address come back as they were, whatever they hold", () => {
  const cells = fc.dictionary(
    fc.string().map((cell) => `June!${cell}`),
    fc.string(),
    { noNullPrototype: true },
  );
  fc.assert(
    fc.property(cells, fc.array(fc.string()), (cells, setAside) => {
      const said = { dayOrder: "ymd" as const, cells, setAside };
      expect(unpackSaid(packSaid(said) ?? "")).toEqual(said);
    }),
  );
});

test("an address that somebody changed carries no answers, and too many answers fit in none", () => {
  for (const packed of [undefined, "", "!!!", "AAAA", packSaid({ cells: { a: "b" } })?.slice(3)]) {
    expect(unpackSaid(packed)).toBeNull();
  }
  let state = 7;
  const chance = () => {
    state = (state * 48_271) % 2_147_483_647;
    return state.toString(36);
  };
  const cells = Object.fromEntries(Array.from({ length: 3000 }, (_, at) => [`June!C${at}`, chance()]));
  expect(packSaid({ cells })).toBeNull();
  const more = { cells: { ...cells, "June!A1": "x" }, dayOrder: "dmy" as const };
  const beside = packSaid(more, { cells });
  expect(beside?.length).toBeLessThan(200);
  expect(unpackSaid(beside ?? "", { cells })).toEqual(more);
});
