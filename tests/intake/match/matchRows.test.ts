import fc from "fast-check";
import { expect, test } from "vitest";
import { matchRows, type Numbering } from "#server/intake/match/matchRows";
import type { BatchWritten } from "#server/terms/batch";
import { knownOf, load, rowsOf, standing, told } from "./someBatches";

const NEXT_DAY = "2031-06-03";

test.each<{
  said: string;
  known: BatchWritten[];
  rows: BatchWritten[];
  numbering?: Numbering;
  becomes: string[];
  vanished?: string[];
}>([
  { said: "a first log brings new batches", known: [], rows: [load(), load()], becomes: ["new", "new"] },
  {
    said: "the same number with the same weights is the same batch",
    known: [load({ number: "7", dried: 3.2 })],
    rows: [load({ number: "7", dried: 3.2 })],
    becomes: ["same b1"],
  },
  {
    said: "the same number with another dried weight is a change",
    known: [load({ number: "7", dried: 3.2 })],
    rows: [load({ number: "7", dried: 3.3 })],
    becomes: ["changed b1"],
  },
  {
    said: "a number that is unique at the site finds its batch on another day",
    known: [load({ number: "7", day: "2031-03-31", dried: 3.2 })],
    rows: [load({ number: "7", day: "2031-04-01", dried: 3.2 })],
    becomes: ["changed b1"],
  },
  {
    said: "a number of the day does not reach the next day",
    known: [load({ number: "1" })],
    rows: [load({ number: "1", day: NEXT_DAY })],
    numbering: "day",
    becomes: ["new"],
  },
  {
    said: "two pans count from one each",
    known: [load({ number: "1", pan: "A", fresh: 5 })],
    rows: [load({ number: "1", pan: "A", fresh: 5 }), load({ number: "1", pan: "B", fresh: 6 })],
    numbering: "day",
    becomes: ["same b1", "new"],
  },
  {
    said: "a number twice in one file is doubtful both times",
    known: [],
    rows: [load({ number: "7", fresh: 9 }), load({ number: "7", fresh: 11 })],
    becomes: ["doubtful", "doubtful"],
  },
  {
    said: "a number under which nothing is as it was is doubtful",
    known: [load({ number: "7", fresh: 9, dried: 3 })],
    rows: [load({ number: "7", fresh: 4, dried: 1.1 })],
    becomes: ["doubtful"],
    vanished: ["b1"],
  },
  {
    said: "without numbers, day, pan and start find the batch",
    known: [load({ pan: "1", startMinute: 480, dried: 3 }), load({ pan: "2", startMinute: 480, dried: 3 })],
    rows: [load({ pan: "2", startMinute: 480, dried: 3.1 })],
    becomes: ["changed b2"],
    vanished: ["b1"],
  },
  {
    said: "equal loads on one day stay apart",
    known: [],
    rows: [load({ fresh: 1, dried: 0.3 }), load({ fresh: 1, dried: 0.3 })],
    becomes: ["new", "new"],
  },
  {
    said: "equal loads that are sent again pair off, and one more is new",
    known: [load({ fresh: 1, dried: 0.3 }), load({ fresh: 1, dried: 0.3 })],
    rows: [load({ fresh: 1, dried: 0.3 }), load({ fresh: 1, dried: 0.3 }), load({ fresh: 1, dried: 0.3 })],
    becomes: ["same b1", "same b2", "new"],
  },
  {
    said: "a load that waited takes its dried weight when the day is sent again",
    known: [load({ fresh: 1, dried: 0.3 }), load({ fresh: 2 })],
    rows: [load({ fresh: 1, dried: 0.3 }), load({ fresh: 2, dried: 0.7 })],
    becomes: ["same b1", "changed b2"],
  },
  {
    said: "one row left beside one batch left of a day sent again is its correction",
    known: [load({ fresh: 1, dried: 0.3 }), load({ fresh: 2, dried: 0.6 })],
    rows: [load({ fresh: 1, dried: 0.3 }), load({ fresh: 2, dried: 0.7 })],
    becomes: ["same b1", "changed b2"],
  },
  {
    said: "several that could be corrections are doubtful",
    known: [load({ fresh: 1, dried: 0.3 }), load({ fresh: 2, dried: 0.6 }), load({ fresh: 2, dried: 0.61 })],
    rows: [load({ fresh: 1, dried: 0.3 }), load({ fresh: 2, dried: 0.7 }), load({ fresh: 2, dried: 0.72 })],
    becomes: ["same b1", "doubtful", "doubtful"],
    vanished: ["b2", "b3"],
  },
  {
    said: "another load on a day of which nothing came again is new",
    known: [load({ fresh: 5, dried: 1.6 })],
    rows: [load({ fresh: 7, dried: 2.2 })],
    becomes: ["new"],
    vanished: ["b1"],
  },
  {
    said: "the tally of a day is one batch, whatever it says now",
    known: [load({ grain: "site-day", loads: 17, fresh: 17, dried: 5.6 })],
    rows: [load({ grain: "site-day", loads: 18, fresh: 18, dried: 5.9 })],
    becomes: ["changed b1"],
  },
  {
    said: "a row that does not name its method finds the batch that has one by now",
    known: [load({ grain: "site-day", loads: 17, fresh: 17 }), load({ fresh: 1, dried: 0.3 })],
    rows: [
      load({ method: null, grain: "site-day", loads: 18, fresh: 18 }),
      load({ method: null, fresh: 1, dried: 0.3 }),
    ],
    becomes: ["changed b1", "same b2"],
  },
  {
    said: "the tallies of two methods on one day stay apart",
    known: [load({ grain: "site-day", loads: 17, fresh: 17 })],
    rows: [load({ method: "microwave", grain: "site-day", loads: 9, fresh: 9 })],
    becomes: ["new"],
    vanished: ["b1"],
  },
  {
    said: "a load with all weights of a batch and another start is doubtful on a day sent again",
    known: [
      load({ pan: "1", startMinute: 480, fresh: 5, dried: 1.6 }),
      load({ pan: "1", startMinute: 600, fresh: 6, dried: 2 }),
    ],
    rows: [
      load({ pan: "1", startMinute: 480, fresh: 5, dried: 1.6 }),
      load({ pan: "1", startMinute: 610, fresh: 6, dried: 2 }),
    ],
    becomes: ["same b1", "doubtful"],
    vanished: ["b2"],
  },
  {
    said: "a batch of a day that the file does not speak of has not vanished",
    known: [load({ number: "1", day: "2031-05-30" }), load({ number: "2" })],
    rows: [load({ number: "3" })],
    becomes: ["new"],
    vanished: ["b2"],
  },
])("$said", ({ known, rows, numbering = "site", becomes, vanished = [] }) => {
  const found = matchRows(rowsOf(rows), knownOf(known), numbering);
  expect(told(found.matches)).toEqual(becomes);
  expect(found.vanished).toEqual(vanished);
});

test.each<{
  said: string;
  known: BatchWritten[];
  dried: Partial<BatchWritten>[];
  numbering?: Numbering;
  becomes: string[];
}>([
  {
    said: "by its number",
    known: [load({ number: "7" }), load({ number: "8" })],
    dried: [{ number: "8", day: NEXT_DAY }],
    becomes: ["joins-dried b2"],
  },
  {
    said: "by its harvest code",
    known: [load({ harvest: "H4" }), load({ harvest: "H5" })],
    dried: [{ harvest: "H5", day: NEXT_DAY }],
    becomes: ["joins-dried b2"],
  },
  {
    said: "by day and pan",
    known: [load({ pan: "1" }), load({ pan: "2" })],
    dried: [{ pan: "2" }],
    becomes: ["joins-dried b2"],
  },
  {
    said: "by a number of the day before",
    known: [load({ number: "1" })],
    dried: [{ number: "1", day: NEXT_DAY }],
    numbering: "day",
    becomes: ["joins-dried b1"],
  },
  {
    said: "not when two loads wait",
    known: [load({ harvest: "H4" }), load({ harvest: "H4" })],
    dried: [{ harvest: "H4" }],
    becomes: ["doubtful"],
  },
  { said: "not when there is none", known: [], dried: [{ number: "8" }], becomes: ["doubtful"] },
  {
    said: "not when two weights claim one load",
    known: [load({ number: "7" })],
    dried: [{ number: "7" }, { number: "7" }],
    becomes: ["doubtful", "doubtful"],
  },
  {
    said: "once: the same weight again is the same",
    known: [load({ number: "7", dried: 3 })],
    dried: [{ number: "7" }],
    becomes: ["same b1"],
  },
  {
    said: "not over another weight",
    known: [load({ number: "7", dried: 3.4 })],
    dried: [{ number: "7" }],
    becomes: ["doubtful"],
  },
])("a dried weight finds its load $said", ({ known, dried, numbering = "site", becomes }) => {
  const rows = dried.map((changes) => ({ ...load({ fresh: null, dried: 3 }), ...changes }));
  expect(told(matchRows(rowsOf(rows), knownOf(known), numbering).matches)).toEqual(becomes);
});

const someLoad = fc.record({
  day: fc.integer({ min: 1, max: 4 }).map((date) => `2031-06-0${date}`),
  fresh: fc.constantFrom(1, 1, 2, 9.5),
  dried: fc.constantFrom(null, 0.3, 0.31, 3),
});

/** The same loads in one file, in two files, and in the two files the other way round. */
function waysToSend(loads: readonly BatchWritten[], inFirst: readonly boolean[]): BatchWritten[][][] {
  const first = loads.filter((_, at) => inFirst[at % inFirst.length]);
  const second = loads.filter((_, at) => !inFirst[at % inFirst.length]);
  return [
    [[...loads]],
    [first, second],
    [second, first],
    [[...loads].reverse()],
    [first, [...loads]],
    [[...loads], second],
  ];
}

test.each(["numbered at the site", "numbered by the day", "with pan and start"] as const)(
  "loads %s end as the same batches however they are sent",
  (how) => {
    fc.assert(
      fc.property(
        fc.array(someLoad, { maxLength: 25 }),
        fc.array(fc.boolean(), { minLength: 1, maxLength: 25 }),
        (some, inFirst) => {
          const loads = some.map(({ day, fresh, dried }, at) => {
            const start = { pan: String(at % 3), startMinute: 400 + at * 7 };
            return load({
              day,
              fresh,
              dried,
              ...(how === "with pan and start" ? start : { number: String(at + 1).padStart(3, "0") }),
            });
          });
          const numbering = how === "numbered by the day" ? "day" : "site";
          const [once, ...others] = waysToSend(loads, inFirst).map((files) => standing(files, numbering));
          for (const other of others) expect(other).toEqual(once);
        },
      ),
      { seed: 7, numRuns: 300 },
    );
  },
);

test("dried weights and loads end as the same batches whichever file comes first is sent again", () => {
  const loads = [1, 2, 3].map((number) => load({ number: String(number), fresh: number }));
  const weights = [1, 2, 3].map((number) =>
    load({ number: String(number), fresh: null, dried: number / 3, day: NEXT_DAY }),
  );
  const joined = loads.map((one, at) => ({ ...one, dried: weights[at]?.dried ?? null, driedToCome: false }));
  expect(standing([loads, weights, weights], "site")).toEqual(standing([joined], "site"));
});

test("a hundred thousand rows are matched in about the time it takes to sort them", () => {
  const loads = Array.from({ length: 100_000 }, (_, at) =>
    load({ number: String(at), day: at % 2 === 0 ? "2031-06-02" : NEXT_DAY }),
  );
  const before = performance.now();
  const { matches } = matchRows(rowsOf(loads), knownOf(loads), "site");
  expect(matches.every(({ kind }) => kind === "same")).toBe(true);
  expect(performance.now() - before).toBeLessThan(10_000);
}, 30_000);
