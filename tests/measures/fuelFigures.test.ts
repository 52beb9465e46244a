import { expect, test } from "vitest";
import { daySums } from "#server/measures/daySums";
import { fuelReach } from "#server/measures/fuelBook";
import { fuelPer, fuelPerAtMost, loadsPerFiringDay } from "#server/measures/fuelFigures";
import { fuelOf } from "#server/measures/fuelOf";
import type { Batch, Method } from "#server/terms/batch";
import { daysBetween, daysOfMonth } from "#server/terms/days";
import type { FuelSpan } from "#server/terms/fuel";
import { ABOUT, batch, fact, span, valued } from "./invented";

/** Ten kg a day that give three: seven driven off. */
const daily = (from: string, to: string) => daysBetween(from, to).map((day) => batch(day, 10, 3));
const june = daysOfMonth("2031-06");
const GAS = 47.3;
const WOOD = 15.6;

function fuel(batches: readonly Batch[], spans: readonly FuelSpan[], month = "2031-06", method: Method | null = null) {
  return fuelOf(daySums(batches, []), spans, [], daysOfMonth(month), method);
}

function perDrivenOff(batches: readonly Batch[], spans: readonly FuelSpan[], month = "2031-06") {
  return fuelPer("driven-off", fuel(batches, spans, month), ABOUT);
}

test("a span that began in May counts in June, where it ends, with what was dried on its May days", () => {
  const loads = daily("2031-05-30", "2031-06-04");
  const gas = [span("2031-05-30", "2031-06-02", 4)];
  expect(valued(perDrivenOff(loads, gas))).toBeCloseTo((4 * GAS) / 28, 12);
  expect(perDrivenOff(loads, gas, "2031-05")).toMatchObject({ known: false, why: "fuel-window-open" });
  expect(fuelReach(gas, june)).toEqual({ from: "2031-05-30", to: "2031-06-30" });
});

test("fuel reach goes back to a span of another fuel that reaches into the window", () => {
  const spans = [
    span("2031-05-28", "2031-06-05", 4),
    span("2031-05-10", "2031-05-30", 50, { fuel: "firewood" }),
    span("2031-05-01", "2031-05-27", 9),
  ];
  expect(fuelReach(spans, june).from).toBe("2031-05-10");
  expect(fuelReach([], june)).toEqual(june);
});

test("of two spans of one fuel for the same days the better known one stands, the other is left out and named", () => {
  const loads = daily("2031-06-02", "2031-06-05");
  const bought = span("2031-06-01", "2031-06-30", 13, { how: "bought" });
  const weighed = span("2031-06-02", "2031-06-05", 4);
  const both = fuel(loads, [bought, weighed]);
  expect(valued(fuelPer("driven-off", both, ABOUT))).toBeCloseTo((4 * GAS) / 28, 12);
  expect(both.leftOut).toEqual([{ span: bought, why: "overlaps-better-known" }]);
});

test("two fuels that touch the same days form one window and both count", () => {
  const loads = daily("2031-06-02", "2031-06-09");
  const spans = [span("2031-06-02", "2031-06-09", 4), span("2031-06-02", "2031-06-09", 20, { fuel: "firewood" })];
  const both = fuel(loads, spans);
  expect(both.windows).toHaveLength(1);
  expect(valued(fuelPer("driven-off", both, ABOUT))).toBeCloseTo((4 * GAS + 20 * WOOD) / 56, 12);
});

test("two fuels on days of their own are two windows, pooled and not added", () => {
  const loads = daily("2031-06-02", "2031-06-09");
  const spans = [span("2031-06-02", "2031-06-05", 4), span("2031-06-06", "2031-06-09", 20, { fuel: "firewood" })];
  expect(fuel(loads, spans).windows).toHaveLength(2);
  expect(valued(perDrivenOff(loads, spans))).toBeCloseTo((4 * GAS + 20 * WOOD) / 56, 12);
});

test("an earlier span of another fuel gives its share of the window's days", () => {
  // gas over 28 May to 4 June (8 days), wood over 25 to 31 May (7 days, 35 kg) and 1 to 7 June (7 days, 42 kg)
  const loads = daily("2031-05-25", "2031-06-07");
  const spans = [
    span("2031-05-28", "2031-06-04", 8),
    span("2031-05-25", "2031-05-31", 35, { fuel: "firewood" }),
    span("2031-06-01", "2031-06-07", 42, { fuel: "firewood" }),
    span("2031-06-05", "2031-06-07", 3),
  ];
  // window 28 May to 7 June, 11 days: gas 11 kg, wood 42 kg and 4 of the 7 days of 35 kg
  expect(valued(perDrivenOff(loads, spans))).toBeCloseTo((11 * GAS + 62 * WOOD) / 77, 9);
});

// 80 kg fresh burned 8 kg of gas; the first four days drove off 28 kg, the last four 32 kg
const uneven = daysBetween("2031-06-02", "2031-06-09").map((day, i) => batch(day, 10, i < 4 ? 3 : 2));

test.each([
  { said: "ends after the period", other: span("2031-06-06", "2031-07-09", 90, { fuel: "firewood" }) },
  { said: "has not ended", other: span("2031-06-06", "2031-06-06", null, { fuel: "kerosene", how: "pending" }) },
  { said: "has no amount", other: span("2031-06-06", "2031-06-09", null, { fuel: "biogas", how: "cylinder-changed" }) },
])("days on which another fuel $said are left out of heat and mass alike", ({ other }) => {
  const gas = span("2031-06-02", "2031-06-09", 8);
  expect(valued(perDrivenOff(uneven, [gas]))).toBeCloseTo((8 * GAS) / 60, 12);
  expect(valued(perDrivenOff(uneven, [gas, other]))).toBeCloseTo((4 * GAS) / 28, 12);
});

test("there is no figure while another fuel of all its days ends later", () => {
  const gas = span("2031-06-02", "2031-06-09", 8);
  const later = span("2031-06-01", "2031-07-09", 90, { fuel: "firewood" });
  expect(perDrivenOff(uneven, [gas, later])).toMatchObject({ known: false, why: "fuel-window-open" });
});

test("a cylinder that nobody took off is open only until another of its fuel begins", () => {
  const forgotten = span("2031-01-10", "2031-01-10", null, { how: "pending" });
  const next = span("2031-02-01", "2031-02-20", 13);
  const wood = span("2031-06-02", "2031-06-09", 40, { fuel: "firewood" });
  expect(valued(perDrivenOff(uneven, [forgotten, next, wood]))).toBeCloseTo((40 * WOOD) / 60, 12);
  expect(perDrivenOff(uneven, [forgotten, wood])).toMatchObject({ known: false, why: "fuel-window-open" });
});

test("a day on which one cylinder came off and the next went on is known", () => {
  const loads = daily("2031-06-02", "2031-06-05");
  const next = span("2031-06-05", "2031-06-05", null, { how: "pending" });
  const [window] = fuel(loads, [span("2031-06-02", "2031-06-05", 4), next]).windows;
  expect(window?.days).toEqual(daysBetween("2031-06-02", "2031-06-05"));
});

test("a fuel shared with the kitchen gives no figure to compare, and an upper bound apart", () => {
  const loads = daily("2031-06-02", "2031-06-05");
  const shared = fuel(loads, [span("2031-06-02", "2031-06-05", 4, { shared: true })]);
  expect(fuelPer("driven-off", shared, ABOUT)).toMatchObject({ known: false, why: "fuel-shared-with-kitchen" });
  expect(valued(fuelPerAtMost("driven-off", shared, ABOUT)!)).toBeCloseTo((4 * GAS) / 28, 12);
  const alone = fuel(loads, [span("2031-06-02", "2031-06-05", 4)]);
  expect(fuelPerAtMost("driven-off", alone, ABOUT)).toBeNull();
});

test.each([
  { said: "no fuel was logged", spans: [], why: "no-fuel-known" },
  {
    said: "the first cylinder is still on",
    spans: [span("2031-06-02", "2031-06-02", null, { how: "pending" })],
    why: "fuel-window-open",
  },
  {
    said: "wood came in m³",
    spans: [span("2031-06-02", "2031-06-05", 1, { fuel: "firewood", unit: "m3" })],
    why: "no-fuel-known",
  },
  {
    said: "the cylinder's net weight was never declared",
    spans: [span("2031-06-02", "2031-06-05", null, { how: "cylinder-changed" })],
    why: "no-fuel-known",
  },
  { said: "nothing was dried on its days", spans: [span("2031-06-20", "2031-06-21", 1)], why: "no-fuel-known" },
] as const)("fuel is unknown when $said", ({ spans, why }) => {
  expect(perDrivenOff(daily("2031-06-02", "2031-06-05"), spans)).toMatchObject({ known: false, why });
});

test("fuel is unknown per kg driven off when no load has both weights, and known per firing day", () => {
  const loads = daysBetween("2031-06-02", "2031-06-05").map((day) => batch(day, 10, null));
  const found = fuel(loads, [span("2031-06-02", "2031-06-05", 4)]);
  expect(fuelPer("driven-off", found, ABOUT)).toMatchObject({ known: false, why: "no-batch-with-both-weights" });
  expect(fuelPer("firing-day", found, ABOUT)).toMatchObject({ known: true, unit: "MJ/day", value: GAS });
});

test("fuel is unknown when as much came out as went in", () => {
  const loads = daysBetween("2031-06-02", "2031-06-05").map((day) => batch(day, 10, 10));
  expect(perDrivenOff(loads, [span("2031-06-02", "2031-06-05", 4)])).toMatchObject({ why: "nothing-driven-off" });
});

test("fuel of days with two methods is not laid on one of them", () => {
  const loads = [...daily("2031-06-02", "2031-06-05"), batch("2031-06-03", 2, 0.6, { method: "microwave" })];
  const spans = [span("2031-06-02", "2031-06-03", 2), span("2031-06-04", "2031-06-05", 2)];
  const pans = fuelPer("driven-off", fuel(loads, spans, "2031-06", "sand-pan"), ABOUT);
  expect(valued(pans)).toBeCloseTo((2 * GAS) / 14, 12);
  const first = fuelPer("driven-off", fuel(loads, spans.slice(0, 1), "2031-06", "sand-pan"), ABOUT);
  expect(first).toMatchObject({ known: false, why: "fuel-of-several-methods" });
});

test("a load without a fresh weight burned its share too", () => {
  const loads = [batch("2031-06-02", 10, 3), batch("2031-06-02", null, 3), batch("2031-06-03", 10, 3)];
  // three loads at a mean of 10 kg: the two with both weights burned two thirds
  expect(valued(perDrivenOff(loads, [span("2031-06-02", "2031-06-03", 3)]))).toBeCloseTo((2 * GAS) / 14, 12);
});

test("preheating shows as heat per firing day with the loads per firing day beside it", () => {
  const loads = [batch("2031-06-02", 10, 3), batch("2031-06-02", 10, 3), batch("2031-06-04", 10, 3)];
  const found = fuel(loads, [span("2031-06-01", "2031-06-05", 3)]);
  expect(valued(fuelPer("firing-day", found, ABOUT))).toBeCloseTo((3 * GAS) / 2, 12);
  expect(valued(loadsPerFiringDay(found, ABOUT))).toBe(1.5);
});

test("one counted cylinder reaches no further than its hard bounds, twelve reach less than their sum", () => {
  const loads = daily("2031-06-01", "2031-06-12");
  const one = [span("2031-06-01", "2031-06-12", 12, { low: 6, high: 18, how: "cylinder-count" })];
  const single = perDrivenOff(loads, one);
  if (!single.known || !single.interval) throw new Error("unknown");
  expect(single.interval.low).toBeCloseTo(((12 - (1.959964 * 6) / Math.sqrt(6)) * GAS) / 84, 5);
  expect(single.interval.low).toBeGreaterThan((6 * GAS) / 84);
  const twelve = daysBetween("2031-06-01", "2031-06-12").map((day) => span(day, day, 1, { low: 0.5, high: 1.5 }));
  const many = perDrivenOff(loads, twelve);
  if (!many.known || !many.interval) throw new Error("unknown");
  // no scatter between windows, so √12 · 0.5/√6 · 1.96 kg instead of 12 · 0.5 kg
  expect(many.interval.high - many.value).toBeCloseTo((1.959964 * Math.sqrt(12) * (0.5 / Math.sqrt(6)) * GAS) / 84, 5);
});

test("over successive months every span counts once", () => {
  const from = "2031-04-01";
  const loads = daily(from, "2031-06-30");
  for (let length = 3; length <= 40; length++) {
    const starts = daysBetween(from, "2031-06-30").filter((_, i) => i % length === 0);
    const spans = starts.slice(1).map((day, i) => span(starts[i]!, daysBetween(starts[i]!, day).at(-2)!, 5));
    const months = ["2031-04", "2031-05", "2031-06"].map((month) => fuel(loads, spans, month).book.ended.length);
    const sum = months.reduce((total, count) => total + count, 0);
    expect(sum, `length ${length}`).toBe(spans.length);
  }
});

test("kg or g, one line or two: the fuel figure is the same", () => {
  const spans = [span("2031-06-02", "2031-06-06", 4)];
  for (let seed = 1; seed <= 50; seed++) {
    const loads = daysBetween("2031-06-02", "2031-06-06").map((day, i) => [day, 5 + ((seed * (i + 3)) % 7)] as const);
    const plain = loads.map(([day, kg]) => batch(day, kg, kg * 0.31));
    const halves = loads.flatMap(([day, kg]) => [batch(day, kg / 2, kg * 0.155), batch(day, kg / 2, kg * 0.155)]);
    const grams = loads.map(([day, kg]) => batch(day, kg * 1000, kg * 310));
    const value = valued(fuelPer("driven-off", fuel(plain, spans), ABOUT));
    expect(valued(fuelPer("driven-off", fuel(halves, spans), ABOUT)), `seed ${seed}`).toBeCloseTo(value, 12);
    expect(valued(fuelPer("driven-off", fuel(grams, spans), ABOUT)) * 1000, `seed ${seed}`).toBeCloseTo(value, 9);
  }
});

test("a declared factor of the site replaces the published heat", () => {
  const local = fact("fuel-factor", { mjPerUnit: 46, source: "gas works" }, { key: "lpg" });
  const found = fuelOf(
    daySums(daily("2031-06-02", "2031-06-05"), []),
    [span("2031-06-02", "2031-06-05", 4)],
    [local],
    june,
    null,
  );
  expect(valued(fuelPer("driven-off", found, ABOUT))).toBeCloseTo((4 * 46) / 28, 12);
});
