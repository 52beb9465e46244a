import { expect, test } from "vitest";
import type { MonthWatched, StreamWatched } from "#server/terms/acceptedTold";
import { FIRST_QUESTIONS, WATCHED } from "#server/terms/signal";
import { ANSWER_KINDS, type FoundAfter } from "#server/terms/signalTold";
import {
  acceptedInWords,
  inDays,
  keptInWords,
  slowInWords,
  toldInMonth,
  unseenInWords,
  weeklyInWords,
} from "../../app/_words/signalAccepted";
import { ANSWER_WORDS, answerInWords } from "../../app/_words/signalAnswers";
import { becameInWords, inboxInWords, STANDING_WORDS } from "../../app/_words/signalInbox";
import { signalTitle, touchesFire, touchesPacking, valueTitleOf } from "../../app/_words/signalPage";
import { foundInWords, heldFromInWords, parametersOf } from "../../app/_words/signalSeries";
import {
  aMonthInWords,
  coincidesInWords,
  levelsInWords,
  orderedByInWords,
  sinceWholeInWords,
  toldInWords,
  worseInWords,
} from "../../app/_words/signalStory";
import { signalTold } from "./signalsTold";

test("what a change comes to a month has its unit, its interval, and what is taken as equal", () => {
  expect(aMonthInWords(signalTold())).toBe(
    "about 500 MJ (375 to 650) more of fuel a month, for the same water driven off",
  );
  const less = signalTold({
    measure: "dry-yield",
    change: -0.08,
    low: -0.12,
    high: -0.04,
    cost: { per30Days: -16, unit: "kg-dried", driedKg: 16 },
  });
  expect(aMonthInWords(less)).toBe("about 16 kg (8 to 24) less dried a month, from the same fresh larvae");
});

test("an interval that holds nothing too is not turned into a gain", () => {
  const open = signalTold({ change: 0.04, low: -0.01, high: 0.09, cost: { per30Days: 20, unit: "mj", driedKg: 2 } });
  expect(aMonthInWords(open)).toContain("about 20 MJ (−5 to 45) more");
});

test("what all did together comes to no weight", () => {
  expect(aMonthInWords(signalTold({ site: null, cost: { per30Days: 0, unit: "mj", driedKg: null } }))).toBeNull();
});

test("a day is told with the days between which it lies, and not at all where it is not determined", () => {
  expect(sinceWholeInWords(signalTold())).toBe("since 18 Jul 2031, with 95 % between 16 Jul 2031 and 19 Jul 2031");
  expect(sinceWholeInWords(signalTold({ since: null, sinceFrom: "2031-05-01" }))).toBe(
    "date not determined: some time between 1 May 2031 and 19 Jul 2031",
  );
});

test("levels stand in the measure's own unit, a yield as kg in a hundred", () => {
  expect(levelsInWords(signalTold())).toBe("from 7.90 to 11.06 MJ per kg driven off");
  expect(levelsInWords(signalTold({ measure: "dry-yield", before: 0.31, after: 0.34 }))).toBe(
    "from 31.0 to 34.0 kg dried per 100 kg fresh",
  );
});

test("a yield has no worse way, whichever way it went", () => {
  expect(worseInWords("dry-yield", "up")).toBe(worseInWords("dry-yield", "down"));
  expect(worseInWords("fuel-intensity", "up")).toBe("This is the worse way.");
  expect(worseInWords("throughput", "up")).toContain("not the worse way");
});

test("first-level words never say stream, segment, EWMA or CUSUM", () => {
  const said = [
    ...WATCHED.flatMap((measure) => [
      valueTitleOf({ site: "SL", method: "sand-pan", measure }),
      worseInWords(measure, "up"),
    ]),
    ...Object.values(STANDING_WORDS),
    ...ANSWER_KINDS.flatMap((kind) => [ANSWER_WORDS[kind].name, ANSWER_WORDS[kind].does]),
    inboxInWords(3, 1),
    signalTitle(signalTold(), "Salt Lane"),
  ];
  expect(said.filter((sentence) => /stream|segment|ewma|cusum|sigma/i.test(sentence))).toEqual([]);
});

test("a title says where, what and by how much", () => {
  expect(signalTitle(signalTold(), "Salt Lane")).toBe("Salt Lane: fuel intensity up 40 % (30 to 52)");
  expect(signalTitle(signalTold({ site: null }), null)).toBe(
    "All with pans of hot sand: fuel intensity up 40 % (30 to 52)",
  );
});

test("what coincides is said with its day and how it is known", () => {
  expect(coincidesInWords({ day: "2031-07-17", what: "log-layout", how: "noticed" })).toBe(
    "On 17 Jul 2031 the layout of the log changed, by what the logs show.",
  );
  expect(coincidesInWords({ day: "2031-07-17", what: "scale", how: "declared" })).toContain("as was declared");
});

test("cautions stand where a question leads to the fire or to product that may be less dry, and only there", () => {
  expect(touchesFire(signalTold().questions)).toBe(true);
  expect(touchesFire(["did-the-writer-change", "are-days-left-out"])).toBe(false);
  expect(touchesPacking(["is-it-taken-off-before-it-is-dry"])).toBe(true);
  expect(FIRST_QUESTIONS.filter((one) => touchesFire([one])).length).toBeGreaterThan(4);
});

test("telling again is counted, not listed", () => {
  expect(toldInWords(["2031-07-23"])).toBe("told on 23 Jul 2031");
  expect(toldInWords(["2031-08-03", "2031-07-23", "2031-08-09"])).toBe(
    "told on 23 Jul 2031, and again 2 times until 9 Aug 2031",
  );
});

test("an answer says its days, and what became of a signal says who answered and when", () => {
  const answer = {
    kind: "temporary-cause",
    from: "2031-07-18",
    to: "2031-07-30",
    days: [],
    reason: "hose",
    by: "Marisol Adeyemi",
    role: "officer",
    at: "2031-08-02T10:00:00Z",
    ledgerIndex: 9,
  } as const;
  expect(answerInWords(answer)).toBe("A cause that passes, 18 to 30 Jul 2031");
  expect(becameInWords(signalTold({ answer, state: "unsupported" }))).toBe(
    "A cause that passes, 18 to 30 Jul 2031 (2 Aug 2031, Marisol Adeyemi, programme officer). No longer supported by the records as they stand now.",
  );
  expect(becameInWords(signalTold({ state: "back" }))).toBe(STANDING_WORDS.back);
});

const found = (
  change: number,
  days: number | null,
  calendarDays: number | null,
  weekly: number | null,
): FoundAfter => ({
  change,
  days,
  toldOn: calendarDays === null ? null : "2031-10-05",
  calendarDays,
  calendarDaysWeekly: weekly,
});

function watched(site: string, ...list: FoundAfter[]): StreamWatched {
  const stream = { site, name: site, method: "sand-pan", measure: "dry-yield" } as const;
  return { ...stream, points: 24, state: "running", days: 60, learn: 12, found: list };
}

test("how soon a change is found is told in days of data and in days from now", () => {
  expect(foundInWords(found(0.1, 9, 44, 16), { site: "OJ", measure: "dry-yield" })).toBe(
    "A change of 10 % would be found after about 9 days. Begun today, and with logs coming when they are due, it would be told on 5 Oct 2031, 44 days from now. Sent every week, it would be told in 16 days.",
  );
  expect(foundInWords(found(0.02, null, null, null), { site: "OJ", measure: "fuel-intensity" })).toContain(
    "would not be found within a year of fuel readings",
  );
});

test("weekly sending is offered only where it wins a fortnight", () => {
  expect(weeklyInWords([watched("OJ", found(0.1, 9, 20, 16))], 0.1)).toBeNull();
  expect(weeklyInWords([watched("OJ", found(0.1, 9, 44, 16)), watched("SL", found(0.1, 9, 40, 12))], 0.1)).toContain(
    "would be told 28 days sooner at OJ and SL",
  );
});

test("what daily watching cannot see is said with its share of the series", () => {
  const streams = [
    watched("OJ", found(0.05, null, null, null), found(0.1, 9, 40, 12)),
    watched("SL", found(0.05, 70, 120, 80)),
  ];
  expect(unseenInWords(streams)).toContain("a lasting change of 5 % in 2 of 2 series");
  expect(unseenInWords([watched("OJ", found(0.1, 9, 40, 12))])).toBeNull();
});

const month = (said: Partial<MonthWatched> = {}): MonthWatched => ({
  month: "2031-07",
  streams: 27,
  points: 640,
  said: 1,
  reading: "on-average",
  accepted: 1,
  expectedFalse: 0.8,
  raised: 3,
  answered: 0,
  confirmed: 0,
  falseAlarms: 0,
  limit: 2.98,
  meanPoints: 800,
  ...said,
});

test("the promise is told with what it holds over, and its reading", () => {
  expect(acceptedInWords({ said: 1, reading: "on-average", months: [month()] })).toBe(
    "Limits are set so that about 1 false alarm a month is chance, over all 27 series and 640 points a month.",
  );
  expect(acceptedInWords({ said: 1, reading: "at-most-one-in-95-percent", months: [] })).toBe(
    "Limits are set so that in 95 % of months at most one alarm is chance.",
  );
});

test("whether it was kept is said only as far as signals were answered", () => {
  expect(keptInWords([])).toBeNull();
  expect(keptInWords([month(), month()])).toContain("nobody can say how many of them were false");
  expect(keptInWords([month({ answered: 2, confirmed: 1, falseAlarms: 1 })])).toContain(
    "Of 2 answered, 1 had a cause and 1 had none; 1 was not answered.",
  );
});

test("defaults are said to be defaults, and why", () => {
  const held = {
    month: "2031-07",
    omega: 0.6,
    rho: 0.4,
    d0: 0,
    s02: 0,
    from: "defaults",
    streams: 2,
    points: 80,
    lambda: 0.1,
    clamp: 3,
    edge: 0.683,
    spikeAt: null,
    edition: "1",
  } as const;
  expect(heldFromInWords(held)).toContain("Defaults, because 2 series with 80 days are too few");
  expect(heldFromInWords({ ...held, from: "streams", streams: 8 })).toContain("Worked out from 8 series");
  expect(parametersOf(held).map(({ value }) => value)).toEqual([
    "0.60",
    "0.40",
    "0.0",
    "0.10",
    "3.0 spreads",
    "± 0.683 spreads",
    "not yet known",
  ]);
});

test("a slow change keeps the signs of its interval", () => {
  expect(slowInWords({ change: -0.04, low: -0.07, high: -0.01 })).toBe("down 4.0 % (1.0 to 7.0)");
  expect(slowInWords({ change: 0.02, low: -0.01, high: 0.05 })).toBe("up 2.0 % (−1.0 to 5.0)");
});

test("days are counted from now, or from the day whose knowledge is shown", () => {
  expect(inDays(44)).toBe("44 days from now");
  expect(inDays(44, "2031-03-10")).toBe("44 days later");
  expect(inDays(null)).toBe("–");
  const found = { change: 0.1, days: 9, toldOn: "2031-05-06", calendarDays: 44, calendarDaysWeekly: 40 };
  const stream = { site: "OJ", measure: "dry-yield" } as const;
  expect(foundInWords(found, stream)).toContain("Begun today, ");
  expect(foundInWords(found, stream, "2031-03-10")).toContain("Begun on 10 Mar 2031, ");
  expect(foundInWords(found, stream, "2031-03-10")).toContain("44 days later");
});

test("a month's list is named by its count", () => {
  expect(toldInMonth("2031-04", 0)).toBe("No signal told in April 2031");
  expect(toldInMonth("2031-04", 1)).toBe("1 signal told in April 2031");
  expect(toldInMonth("2031-04", 3)).toBe("3 signals told in April 2031");
});

test("a story about records alone has no cost, and says so; one without a weight says that", () => {
  expect(orderedByInWords(17.4, ["dry-yield"])).toBe("Ordered as 17 kg dried a month.");
  expect(orderedByInWords(null, ["completeness"])).toContain("It has no cost");
  expect(orderedByInWords(null, ["completeness", "fuel-intensity"])).toBe(
    "It comes to no weight that it could be ordered by.",
  );
});
