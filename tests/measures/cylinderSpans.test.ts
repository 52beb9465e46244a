import { expect, test } from "vitest";
import { amountSpans } from "#server/measures/amountSpans";
import { cylinderCount } from "#server/measures/cylinderCount";
import { type CylinderEvent, cylinderSpans } from "#server/measures/cylinderSpans";
import { plusDays } from "#server/terms/days";
import { fact, SITE } from "./invented";

const on = (day: string, count = 1): CylinderEvent => {
  return { site: SITE, day, fuel: "lpg", kind: "change", count, beforeKg: null, afterKg: null };
};
const weighed = (day: string, beforeKg: number | null, afterKg: number | null): CylinderEvent => {
  return { site: SITE, day, fuel: "lpg", kind: "gross", count: 0, beforeKg, afterKg };
};
const thirteen = fact("cylinder", { netKg: 13 }, { key: "lpg" });
const brief = (events: CylinderEvent[], facts = [thirteen]) =>
  cylinderSpans(events, facts).map(({ from, to, how, low, best, high }) => [from, to, how, low, best, high]);

test("four changes of 13 kg cylinders mean 39 to 65 kg, most likely 52, deviation 5.307", () => {
  const count = cylinderCount(4, 13);
  expect(count).toMatchObject({ low: 39, best: 52, high: 65 });
  expect(count.sd).toBeCloseTo(5.307, 3);
});

test("a cylinder runs from the day after it was put on to the day it came off, the first from its own day", () => {
  expect(brief([on("2031-06-01"), on("2031-06-09"), on("2031-06-20")])).toEqual([
    ["2031-06-01", "2031-06-09", "cylinder-changed", 12.5, 13, 13],
    ["2031-06-10", "2031-06-20", "cylinder-changed", 12.5, 13, 13],
    ["2031-06-21", "2031-06-21", "pending", null, null, null],
  ]);
});

test("a note of several changes since the last one is a count with its bounds", () => {
  expect(brief([on("2031-05-31"), on("2031-06-30", 4)])[0]).toEqual([
    "2031-05-31",
    "2031-06-30",
    "cylinder-count",
    39,
    52,
    65,
  ]);
});

test("without a declared net weight the days are known and the amount is not", () => {
  expect(brief([on("2031-06-01"), on("2031-06-09")], [])[0]).toEqual([
    "2031-06-01",
    "2031-06-09",
    "cylinder-changed",
    null,
    null,
    null,
  ]);
});

test("the size in force when a cylinder was put on counts, and the kitchen's share is marked", () => {
  const facts = [
    fact("cylinder", { netKg: 6 }, { key: "lpg", to: "2031-06-08" }),
    fact("cylinder", { netKg: 13 }, { key: "lpg", from: "2031-06-09", at: 2 }),
    fact("kitchen-shares", { shared: true }, { key: "lpg", from: "2031-06-09" }),
  ];
  const spans = cylinderSpans([on("2031-06-01"), on("2031-06-09"), on("2031-06-20")], facts);
  expect(spans.map(({ best, shared }) => [best, shared])).toEqual([
    [6, false],
    [13, true],
    [null, true],
  ]);
});

test("a cylinder weighed before the first load and after the last gives one span", () => {
  expect(brief([weighed("2031-06-02", 20.4, null), weighed("2031-06-09", null, 15.45)])).toEqual([
    ["2031-06-02", "2031-06-09", "weighed", expect.closeTo(4.95, 9), expect.closeTo(4.95, 9), expect.closeTo(4.95, 9)],
  ]);
});

test("rows with both weights give that day's use, added, with one scale step a pair as error", () => {
  const step = fact("scale-step", { kg: 0.1 }, { key: "fuel" });
  expect(brief([weighed("2031-06-02", 20, 19.5), weighed("2031-06-02", 19.5, 19.2)], [step])).toEqual([
    ["2031-06-02", "2031-06-02", "weighed", expect.closeTo(0.6, 9), expect.closeTo(0.8, 9), expect.closeTo(1.0, 9)],
  ]);
});

test("morning weights run from one morning to the evening before the next, and not across a change", () => {
  const mornings = [weighed("2031-06-02", 20, null), weighed("2031-06-04", 18, null), weighed("2031-06-06", 27, null)];
  expect(brief(mornings)).toEqual([["2031-06-02", "2031-06-03", "weighed", 2, 2, 2]]);
  expect(brief([...mornings.slice(0, 2), on("2031-06-03")]).filter(([, , how]) => how === "weighed")).toEqual([]);
});

test("evening weights run from the day after one to the evening of the next", () => {
  const evenings = [weighed("2031-06-02", null, 20), weighed("2031-06-05", null, 18)];
  expect(brief(evenings)).toEqual([["2031-06-03", "2031-06-05", "weighed", 2, 2, 2]]);
});

test("a weight that rose within a row gives no amount, never a negative one", () => {
  expect(brief([weighed("2031-06-02", 15, 28)])).toEqual([["2031-06-02", "2031-06-02", "weighed", null, null, null]]);
});

test("amounts in the rows of a day are added, whatever their order", () => {
  const row = (amount: number) => ({ site: SITE, day: "2031-06-02", fuel: "lpg", amount, unit: "kg" }) as const;
  const rows = [row(0.1), row(0.7), row(0.2)];
  expect(amountSpans(rows, [])).toMatchObject([{ from: "2031-06-02", to: "2031-06-02", how: "weighed", best: 1 }]);
  expect(amountSpans([...rows].reverse(), [])).toStrictEqual(amountSpans(rows, []));
});

test("whatever the days of the changes, spans follow on each other and every cylinder but the last has an amount", () => {
  for (let seed = 1; seed <= 100; seed++) {
    const days = [
      ...new Set(Array.from({ length: 6 }, (_, i) => plusDays("2031-03-01", ((seed * 37 * (i + 1)) % 97) + i))),
    ];
    const spans = cylinderSpans(
      days.map((day) => on(day)),
      [thirteen],
    );
    expect(spans.length, `seed ${seed}`).toBe(days.length);
    for (const [i, span] of spans.slice(1).entries()) expect(span.from, `seed ${seed}`).toBe(plusDays(spans[i]!.to, 1));
    expect(spans.filter((span) => span.best === null).length, `seed ${seed}`).toBe(1);
  }
});
