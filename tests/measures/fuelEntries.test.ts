import { expect, test } from "vitest";
import { type FuelSaidOn, fuelSpansFrom } from "#server/measures/fuelEntries";
import { quantity, SITE } from "./invented";

const on = (day: string, said: FuelSaidOn["said"]): FuelSaidOn => ({ site: SITE, day, fuel: "lpg", said });
const amount = (day: string, kg: number) => on(day, { kind: "amount", amount: quantity(kg)!, unit: "kg" });
const gross = (day: string, before: number, after: number) =>
  on(day, { kind: "gross", before: quantity(before), after: quantity(after) });
const declared = (day: string, to: string, kg: number) =>
  on(day, { kind: "span", to, how: "weighed", unit: "kg", low: kg, best: kg, high: kg });

test("amounts of a day are one span, declared spans stand as declared, cylinders make their own", () => {
  const entries = [
    amount("2031-05-03", 0.4),
    amount("2031-05-03", 0.3),
    declared("2031-05-10", "2031-05-12", 2),
    on("2031-05-20", { kind: "cylinder-change", count: 1 }),
  ];
  expect(fuelSpansFrom(entries, []).map(({ from, to, how, best }) => [from, to, how, best])).toEqual([
    ["2031-05-03", "2031-05-03", "weighed", 0.7],
    ["2031-05-10", "2031-05-12", "weighed", 2],
    ["2031-05-20", "2031-05-20", "pending", null],
  ]);
});

test("a day with a cylinder's weights and an amount in kg has one span: the weights, or the amount where they fail", () => {
  expect(fuelSpansFrom([amount("2031-05-03", 0.6), gross("2031-05-03", 20, 19.5)], [])).toMatchObject([{ best: 0.5 }]);
  expect(fuelSpansFrom([amount("2031-05-03", 0.6), gross("2031-05-03", 15, 28)], [])).toMatchObject([{ best: 0.6 }]);
});

test("what somebody declared stands before what rows say of the same day", () => {
  expect(fuelSpansFrom([amount("2031-05-03", 0.6), declared("2031-05-03", "2031-05-03", 1)], [])).toMatchObject([
    { best: 1 },
  ]);
});

test("nothing written is no span, and the order of entries changes nothing", () => {
  expect(fuelSpansFrom([], [])).toEqual([]);
  const entries = [amount("2031-05-04", 1), amount("2031-05-03", 2), declared("2031-05-03", "2031-05-09", 3)];
  for (let turn = 0; turn < entries.length; turn++) {
    const turned = [...entries.slice(turn), ...entries.slice(0, turn)];
    expect(fuelSpansFrom(turned, [])).toStrictEqual(fuelSpansFrom(entries, []));
  }
});
