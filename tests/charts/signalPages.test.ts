import { expect, test } from "vitest";
import { cusumChart } from "#server/drift/cusumChart";
import { plusDays } from "#server/terms/days";
import { alarmTally } from "../../app/_charts/alarmTally";
import { closerOfChange } from "../../app/signals/closerOfChange";
import { drawnOf } from "../../app/signals/drawnOf";
import { lastOfEach, overInOrder, sortedOut } from "../../app/signals/sortedOut";
import { sumsOf } from "../../app/signals/sumsOf";
import { pointTold, referenceTold, signalTold, storyTold, streamShown } from "../app/signalsTold";
import { seeded } from "../statistics/seeded";
import { marks, svgOf } from "./figures";

const day = (at: number) => plusDays("2031-07-01", at);
const points = Array.from({ length: 24 }, (_, i) => pointTold(day(i)));

test("days are split where a reference begins, whether it has a first day or not", () => {
  const references = [referenceTold({ to: day(10) }), referenceTold({ from: day(10), begunBy: "scale" })];
  const drawn = drawnOf(streamShown({ points, references }), null);
  expect(drawn?.references.map((days) => days.length)).toEqual([10, 14]);
  expect(drawn?.events).toEqual([{ day: day(10), text: "a new reference, since the scale changed" }]);
  expect(drawn?.levels.map(({ from, to }) => [from, to])).toEqual([
    [day(0), day(10)],
    [day(10), day(23)],
  ]);
});

test("about a signal the level before reaches from its reference to the change, the one after to its telling", () => {
  const drawn = drawnOf(streamShown({ points }), signalTold());
  expect(drawn?.levels).toEqual([
    { from: day(0), to: "2031-07-18", value: 7.9 },
    { from: "2031-07-18", to: "2031-07-23", value: 11.06 },
  ]);
  expect(drawn?.begun).toEqual({ from: "2031-07-16", to: "2031-07-19", best: "2031-07-18" });
});

test("once answered as a real change, the level before is still drawn up to it", () => {
  const references = [
    referenceTold({ to: "2031-07-18" }),
    referenceTold({ from: "2031-07-18", begunBy: "real-change" }),
  ];
  expect(drawnOf(streamShown({ points, references }), signalTold())?.levels[0]).toEqual({
    from: day(0),
    to: "2031-07-18",
    value: 7.9,
  });
});

test("what coincides is a rule of the chart, once", () => {
  const coincides = [{ day: "2031-07-17", what: "scale", how: "declared" }] as const;
  const drawn = drawnOf(streamShown({ points }), signalTold({ coincides }));
  expect(drawn?.events).toEqual([{ day: "2031-07-17", text: "the scale changed, as was declared" }]);
  const references = [referenceTold({ to: "2031-07-17" }), referenceTold({ from: "2031-07-17", begunBy: "scale" })];
  expect(drawnOf(streamShown({ points, references }), signalTold({ coincides }))?.events).toHaveLength(1);
});

test("a stream without a day has no picture, and sites together have no level in the measure's unit", () => {
  expect(drawnOf(streamShown(), signalTold())).toBeNull();
  const stream = { site: null, method: "sand-pan", measure: "dry-yield" } as const;
  const drawn = drawnOf(streamShown({ stream, points }), signalTold({ site: null, measure: "dry-yield" }));
  expect(drawn?.levels).toEqual([]);
  expect(drawn?.unit).toBe("count");
});

// The recursion of NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3, which the drift room holds to its tables.
test("the sums are those of the drift room, begun anew with each reference", () => {
  for (let seed = 1; seed <= 50; seed++) {
    const { uniform } = seeded(seed);
    const scores = Array.from({ length: 40 }, () => (uniform() - 0.5) * 8);
    const days = scores.map((score, i) => pointTold(day(i), { score }));
    const begin = 1 + Math.floor(uniform() * 38);
    const references = [referenceTold({ to: day(begin) }), referenceTold({ from: day(begin) })];
    const clamped = scores.map((score) => Math.max(-3, Math.min(3, score)));
    const chart = [clamped.slice(0, begin), clamped.slice(begin)].map((part) =>
      cusumChart(part, { target: 0, allowance: 0.5, limit: 5 }),
    );
    const sums = sumsOf(days, references);
    expect(
      sums.map(({ up }) => up),
      `seed ${seed}`,
    ).toEqual(chart.flatMap(({ up }) => up));
    expect(
      sums.map(({ down }) => down),
      `seed ${seed}`,
    ).toEqual(chart.flatMap((one) => one.down));
  }
});

test("a day that is not scored has no sum", () => {
  expect(sumsOf([pointTold(day(0), { score: null })], [referenceTold()])).toEqual([]);
});

test("what all did together is told once, with the sites whose stories it holds", () => {
  const rain = signalTold({ site: null });
  const ofRain = storyTold([signalTold({ site: "OJ" })], { partOf: rain });
  const own = storyTold([signalTold()]);
  const sorted = sortedOut([own, ofRain, storyTold([rain], { site: null })]);
  expect(sorted.alone).toEqual([own]);
  expect(sorted.together).toEqual([{ key: rain.id, signals: [rain], parts: [ofRain] }]);
  // where its own story does not wait any more, its parts still stand together under it
  expect(sortedOut([ofRain]).together).toEqual([{ key: rain.id, signals: [rain], parts: [ofRain] }]);
});

test("a series of a story is told by its last signal", () => {
  const [first, again] = [signalTold(), signalTold({ raisedOn: "2031-08-03" })];
  const yields = signalTold({ measure: "dry-yield" });
  expect(lastOfEach([first, yields, again])).toEqual([again, yields]);
});

test("each signal of a month is one square, in the shape of what became of it", () => {
  const months = [
    { month: "2031-06", expectedFalse: 0.8, raised: 5, confirmed: 2, falseAlarms: 1 },
    { month: "2031-07", expectedFalse: 0.9, raised: 0, confirmed: 0, falseAlarms: 0 },
  ];
  const chart = alarmTally("Signals told", months);
  const svg = svgOf(chart.picture);
  expect(marks(svg, "filled")).toBe(2);
  expect(marks(svg, "outlined")).toBe(3);
  expect(marks(svg, "reach")).toBe(1);
  expect(marks(svg, "level")).toBe(2);
  expect(chart.table.rows[0]).toEqual(["June 2031", "0.8", "5", "2", "1", "2"]);
});

test("a series without references, such as a record by months, is drawn whole from its first month on", () => {
  const months = ["2031-05-31", "2031-06-30", "2031-07-31"].map((last) => pointTold(last));
  const drawn = drawnOf(streamShown({ points: months, references: [] }), null);
  expect(drawn?.references).toHaveLength(1);
  expect(drawn?.from).toBe("2031-05-01");
});

test("the picture to move about in has the same days, ranges and limits", () => {
  const moved = points.map((one, i) => (i < 12 ? one : { ...one, limit: 0.8 }));
  const drawn = drawnOf(streamShown({ points: moved }), null)!;
  const closer = closerOfChange(drawn, { short: "s", long: "l" });
  const [days, recent] = closer.panels;
  expect(days?.points).toHaveLength(24);
  expect(days?.points[0]).toEqual({ from: day(0), to: day(0), value: 8, low: 6, high: 10 });
  expect(recent?.levels.map(({ value }) => value)).toEqual([0.7, -0.7, 0.8, -0.8]);
  const record = drawnOf(streamShown({ points: points.map((one) => ({ ...one, chart: null, limit: null })) }), null)!;
  expect(closerOfChange(record, { short: "s", long: "l" }).panels).toHaveLength(1);
});

test("what is over is listed by the day it was told last, whatever story it is of", () => {
  const [may, july, october] = ["2031-05-17", "2031-07-05", "2031-10-18"].map((raisedOn) => signalTold({ raisedOn }));
  const fuel = signalTold({ raisedOn: "2031-06-09", measure: "throughput" });
  const rows = overInOrder([storyTold([may!, fuel]), storyTold([october!]), storyTold([july!])]);
  expect(rows.map(({ signal }) => signal.raisedOn)).toEqual(["2031-10-18", "2031-07-05", "2031-06-09", "2031-05-17"]);
});
