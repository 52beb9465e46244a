import { expect, test } from "vitest";
import { plusDays } from "#server/terms/days";
import type { ChangeDrawn, DrawnDay } from "../../app/_charts/changeDrawn";
import { changeOverTime } from "../../app/_charts/changeOverTime";
import { marks, svgOf } from "./figures";

const FIRST = "2031-03-01";
const day = (at: number) => plusDays(FIRST, at);

/** Four days of learning, one asked about, then ten compared: five as before, five 10 % higher, the last one telling. */
function days(): DrawnDay[] {
  return Array.from({ length: 15 }, (_, i) => {
    const learning = i < 4;
    return {
      day: day(i),
      value: i === 4 ? 3.1 : i < 10 ? 0.31 : 0.341,
      low: learning ? null : 0.28,
      high: learning ? null : 0.34,
      chart: learning ? null : i < 10 ? 0 : (i - 9) * 0.15,
      limit: learning ? null : 0.7,
      raised: i === 14 ? "up" : null,
      state: learning ? "learning" : i === 4 ? "far-outside" : "scored",
    } as const;
  });
}

function drawn(said: Partial<ChangeDrawn> = {}): ChangeDrawn {
  return {
    title: "Dry yield of Old Jetty",
    valueTitle: "Dry yield, kg dried per 100 kg fresh",
    unit: "kg/kg",
    from: FIRST,
    to: "2031-03-31",
    references: [days()],
    levels: [
      { from: FIRST, to: day(9), value: 0.31 },
      { from: day(10), to: day(14), value: 0.341 },
    ],
    begun: { from: day(8), to: day(11), best: day(10) },
    point: "day",
    toldOn: day(14),
    events: [],
    ...said,
  };
}

test("every day has its dot, and its own shape while learning, when asked about, and when left out", () => {
  const svg = svgOf(changeOverTime(drawn()).picture);
  expect(marks(svg, "ring")).toBe(4);
  expect(marks(svg, "asked")).toBe(1);
  expect(marks(svg, "dayDot")).toBe(10);
  const [first, ...rest] = days();
  const left = svgOf(changeOverTime(drawn({ references: [[{ ...first!, state: "left-out" }, ...rest]] })).picture);
  expect(marks(left, "quietMark")).toBe(1);
});

test("a day has a range from the day on which something is expected of it", () => {
  expect(marks(svgOf(changeOverTime(drawn()).picture), "range")).toBe(11);
});

test("a day ten times too large is drawn at the edge and does not press the others together", () => {
  const withIt = svgOf(changeOverTime(drawn()).picture);
  const without = svgOf(
    changeOverTime(drawn({ references: [days().filter(({ state }) => state !== "far-outside")] })).picture,
  );
  const levels = (svg: string) =>
    [...svg.matchAll(/<line class="[^"]*level[^"]*"[^>]*y1="([^"]+)"/g)].map(([, y]) => y);
  expect(levels(withIt)).toEqual(levels(without));
  expect(levels(withIt)).toHaveLength(2);
});

test("days of two references are not joined, nor is the day after a signal to the signal", () => {
  const joined = (said: Partial<ChangeDrawn>) => marks(svgOf(changeOverTime(drawn(said)).picture), "line");
  expect(joined({})).toBe(10); // eleven days that are held to a limit
  expect(joined({ references: [days().slice(0, 10), days().slice(10)] })).toBe(9);
  const crossed = days().map((one, i) => (i === 12 ? { ...one, chart: 0.71, raised: "up" as const } : one));
  expect(joined({ references: [crossed] })).toBe(9);
});

test("the limit is drawn as it was on each day", () => {
  const moved = days().map((one, i) => (i < 12 ? one : { ...one, limit: 0.8 }));
  expect(marks(svgOf(changeOverTime(drawn()).picture), "outerLimit")).toBe(2);
  expect(marks(svgOf(changeOverTime(drawn({ references: [moved] })).picture), "outerLimit")).toBe(4);
});

test("the span in which a level began is a bracket; a rule stands only on a day that is determined", () => {
  const known = changeOverTime(drawn());
  expect(marks(svgOf(known.picture), "cap")).toBe(2);
  expect(marks(svgOf(known.picture), "since")).toBe(1);
  expect(known.long).toContain("9 to 12 Mar 2031, most likely 11 Mar 2031");
  const open = changeOverTime(drawn({ begun: { from: day(0), to: day(14), best: null } }));
  expect(marks(svgOf(open.picture), "since")).toBe(0);
  expect(open.long).toContain("the day itself is not determined");
});

test("the day on which the signal was told is marked, whatever the days as known now would raise", () => {
  expect(marks(svgOf(changeOverTime(drawn()).picture), "flag")).toBe(1);
  expect(changeOverTime(drawn()).long).toContain("told on 15 Mar 2031");
  expect(marks(svgOf(changeOverTime(drawn({ toldOn: null })).picture), "flag")).toBe(0);
});

test("the table says of each day what the picture shows", () => {
  const { head, rows } = changeOverTime(drawn()).table;
  expect(rows.every((row) => row.length === head.length)).toBe(true);
  expect(rows).toHaveLength(15);
  expect(rows[0]).toEqual(["1 Mar 2031", "31.0", "–", "–", "learning"]);
  expect(rows[4]).toEqual(["5 Mar 2031", "310.0", "28.0 to 34.0", "0 %", "asked about, not learnt from"]);
  expect(rows[14]).toEqual(["15 Mar 2031", "34.1", "28.0 to 34.0", "107 %", "compared; a signal was told"]);
});

test("the sums are a view without a limit, below the rest on the same axis", () => {
  const plain = svgOf(changeOverTime(drawn()).picture);
  const sums = days().map((one, i) => ({ day: one.day, up: i, down: 0 }));
  const withSums = svgOf(changeOverTime(drawn({ sums })).picture);
  expect(marks(withSums, "line") - marks(plain, "line")).toBe(28);
  expect(marks(withSums, "outerLimit")).toBe(marks(plain, "outerLimit"));
  expect(withSums).toContain("nothing is told from it");
});

test("a series without a single day says so", () => {
  const empty = changeOverTime(drawn({ references: [], levels: [], begun: null }));
  expect(svgOf(empty.picture)).toContain("no day has a value");
  expect(empty.table.rows).toEqual([]);
});

test("a record of months, of which only the least is expected, has that end alone and no drift", () => {
  const months = days().map((one) => ({ ...one, low: 0.28, high: null, chart: null, limit: null }));
  const chart = changeOverTime(drawn({ references: [months] }));
  const svg = svgOf(chart.picture);
  expect(marks(svg, "range")).toBe(0);
  expect(marks(svg, "rangeEnd")).toBe(15);
  expect(svg).not.toContain("Recent days");
  expect(chart.long).not.toContain("recent days");
  expect(chart.table.rows[0]?.[2]).toBe("28.0 or more");
});
