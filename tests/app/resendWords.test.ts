import { expect, test } from "vitest";
import {
  batchInWords,
  changeInWords,
  countsInWords,
  fuelDifferenceInWords,
  rowDifferenceInWords,
  whyInWords,
} from "#app/_words/difference";
import { answeredInWords, fatesInWords, whoInWords } from "#app/_words/history";
import { packResent, resentOf } from "#app/send/resent";
import type { RowDifference } from "#server/terms/difference";
import type { SentLog } from "#server/terms/history";

const batch = { day: "2031-04-02", number: "7", pan: "2", startMinute: 485, loads: 1, fresh: "12", dried: null };

test("a load is named by what people tell it from others by", () => {
  expect(batchInWords(batch)).toBe("load 7 of 2 Apr 2031, pan 2, from 08:05: 12 kg fresh, no dried weight yet");
  expect(batchInWords({ ...batch, number: null, pan: null, startMinute: null, loads: 18, dried: "5.9" })).toBe(
    "18 loads of 2 Apr 2031: 12 kg fresh, 5.9 kg dried",
  );
});

test("a change says what was and what is, with its unit", () => {
  expect(changeInWords({ field: "fresh", was: "12", is: "12.4" })).toBe("fresh in: 12 kg, now 12.4 kg");
  expect(changeInWords({ field: "dried", was: null, is: "3.9" })).toBe("dried out: nothing said, now 3.9 kg");
  expect(changeInWords({ field: "startMinute", was: 485, is: 1439 })).toBe("start: 08:05, now 23:59");
  expect(changeInWords({ field: "newSand", was: false, is: true })).toBe("new sand: no, now yes");
  expect(changeInWords({ field: "day", was: "2031-04-01", is: "2031-04-02" })).toBe("day: 1 Apr 2031, now 2 Apr 2031");
});

test("a set says whose place it takes", () => {
  const row: RowDifference = {
    sheet: "log",
    row: 2,
    verdict: "new",
    batch,
    changes: [],
    instead: [],
    mayBe: [],
    mayJoin: [],
  };
  const instead = ["3", "4", "5"].map((number) => ({ ...batch, id: number, number }));
  expect(rowDifferenceInWords({ ...row, instead })).toBe(
    "It takes the place of 3 loads that came one by one: 3, 4 and 5.",
  );
  expect(rowDifferenceInWords(row)).toBe("");
});

test("fuel says what was and what is", () => {
  const amount = (value: number) => ({ kind: "amount", amount: { exact: String(value), value }, unit: "kg" }) as const;
  expect(fuelDifferenceInWords({ day: "2031-04-02", fuel: "firewood", was: amount(3), is: amount(3.5) })).toBe(
    "firewood on 2 Apr 2031: 3 kg, now 3.5 kg",
  );
  const gross = { kind: "gross", before: null, after: { exact: "17.7", value: 17.7 } } as const;
  expect(fuelDifferenceInWords({ day: "2031-04-02", fuel: "lpg", was: gross, is: null })).toBe(
    "gas (LPG) on 2 Apr 2031: cylinder 17.7 kg after, now nothing",
  );
});

test("rows are counted by what becomes of them; what is nought is left out", () => {
  const counts = { new: 3, changed: 1, same: 1204, joined: 0, doubtful: 2, noLoad: 0 };
  expect(countsInWords({ counts, rows: [], fuel: [], vanished: [], earlier: [] })).toBe(
    "3 new, 1 changed, 2 unclear and 1,204 as they are here already",
  );
});

test("own words stand alone under another reason, and behind a reason of the list", () => {
  expect(whyInWords({ reason: "other", words: "the sheet was wet" })).toBe("the sheet was wet");
  expect(whyInWords({ reason: "unit", words: "grams" })).toBe("it was in the wrong unit: grams");
  expect(whyInWords({ reason: "late", words: "" })).toBe("something came late and was filled in");
});

test("somebody is named as far as whoever reads may know", () => {
  expect(whoInWords({ self: true, name: "Jonas Fell", role: "lead" })).toBe("you");
  expect(whoInWords({ self: false, name: "Jonas Fell", role: "lead" })).toBe("Jonas Fell (site lead)");
  expect(whoInWords({ self: false, name: null, role: "officer" })).toBe("programme officer");
});

test("a log tells its rows by fate, and what became of those that needed an answer", () => {
  expect(fatesInWords({ rows: 30, counted: 25, held: 1, setAside: 4 })).toBe(
    "30 rows: 25 counted, 1 needs an answer and 4 are not a batch",
  );
  expect(fatesInWords({ rows: 0, counted: 0, held: 0, setAside: 0 })).toBe("no row was counted yet");
  const by = { self: false, name: null, role: "officer" } as const;
  const at = "2031-05-03T08:00:00.000Z";
  const log: SentLog = {
    file: "f",
    code: "EV-7K3M9QAF",
    site: "OJ",
    whole: true,
    name: "april.csv",
    sha256: "00",
    bytes: 1,
    sentBy: by,
    arrivedAt: at,
    claimedAt: null,
    cameBy: "site",
    ledgerIndex: 3,
    state: "counted",
    typing: null,
    takenBackWhy: null,
    takenBackInPart: false,
    everHeld: 5,
    rows: { rows: 30, counted: 25, held: 1, setAside: 4 },
    settled: [
      { fate: "counted", how: "answered", by, at, rows: 2 },
      { fate: "set-aside", how: "answered", by, at, rows: 1 },
      { fate: "counted", how: "joined", by, at, rows: 1 },
    ],
  };
  expect(answeredInWords(log)).toBe(
    "5 rows needed an answer: 2 answered by programme officer on 3 May 2031, 08:00 UTC, " +
      "1 set aside as no batch by programme officer on 3 May 2031, 08:00 UTC, " +
      "1 found what it lacked on 3 May 2031, 08:00 UTC and 1 still waits",
  );
  expect(answeredInWords({ ...log, everHeld: 0 })).toBeNull();
});

test("a form says what should not count any more and why; an address carries it", () => {
  const said = resentOf({ "gone:a": "yes", "gone:b": "yes", why: "twice", whyWords: " both sheets ", other: "1" });
  expect(said).toEqual({ gone: ["a", "b"], why: { reason: "twice", words: "both sheets" } });
  expect(packResent(said)).toEqual({ gone: "a,b", why: "twice", whyWords: "both sheets" });
  expect(resentOf({ why: "nonsense", whyWords: "in own words" }).why).toEqual({
    reason: "other",
    words: "in own words",
  });
  expect(resentOf({ why: "" })).toEqual({ gone: [], why: null });
});
