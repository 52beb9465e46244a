import { expect, test } from "vitest";
import { daySums } from "#server/measures/daySums";
import { type FuelTotal, fuelTotal, fuelTotalAtMost, gasPerUnit } from "#server/measures/emissions";
import { co2KgPerUnit } from "#server/measures/fuelEnergy";
import { fuelOf } from "#server/measures/fuelOf";
import { daysOfMonth } from "#server/terms/days";
import { GWP100 } from "#server/terms/factors";
import type { Fact } from "#server/terms/facts";
import type { FuelSpan } from "#server/terms/fuel";
import { ABOUT, batch, fact, span, valued } from "./invented";

const sums = daySums([batch("2031-06-02", 10, 3)], []);

function total(of: FuelTotal, spans: readonly FuelSpan[], facts: readonly Fact[] = [], gwp: "AR5" | "AR6" = "AR6") {
  return fuelTotal(of, fuelOf(sums, spans, facts, daysOfMonth("2031-06"), null), facts, ABOUT, gwp);
}

const kg = (fuel: "lpg" | "firewood" | "charcoal") => ({ fuel, unit: "kg", to: "2031-06-30" }) as const;
const gases = (fuel: "lpg" | "firewood" | "charcoal", ch4: number) =>
  gasPerUnit(kg(fuel), [], "ch4KgPerTj", ch4)! + gasPerUnit(kg(fuel), [], "n2oKgPerTj", GWP100.AR6.n2o)!;

// Factors: IPCC 2006 Guidelines, Vol. 2, Ch. 2, Table 2.5; potentials: IPCC AR6, Ch. 7, Table 7.15.
test("a kg of gas comes to 2.99297 kg CO2e, of wood to 0.143395 and of charcoal to 0.16735 beside its memo", () => {
  expect(co2KgPerUnit(kg("lpg"), [])! + gases("lpg", GWP100.AR6.ch4Fossil)).toBeCloseTo(2.99297, 5);
  expect(gases("firewood", GWP100.AR6.ch4Biogenic)).toBeCloseTo(0.143395, 5);
  expect(gases("charcoal", GWP100.AR6.ch4Biogenic)).toBeCloseTo(0.16735, 5);
});

const mixed = [
  span("2031-06-02", "2031-06-05", 4),
  span("2031-06-02", "2031-06-05", 20, { fuel: "firewood" }),
  span("2031-06-01", "2031-06-30", 30, { fuel: "electricity", unit: "kWh", how: "metered" }),
];

test("carbon of wood is a memo and never added to the fossil one", () => {
  expect(valued(total("fossil-co2", mixed))).toBeCloseTo(4 * 2.98463, 9);
  expect(valued(total("biogenic-co2", mixed))).toBeCloseTo(20 * 1.7472, 9);
  expect(valued(total("heat", mixed))).toBeCloseTo(4 * 47.3 + 20 * 15.6 + 30 * 3.6, 9);
});

test("CH4 and N2O of every fuel are lines of their own, fossil and biogenic methane at their own potential", () => {
  const ch4 = (4 * 47.3 * 5 * 29.8 + 20 * 15.6 * 300 * 27) / 1e6;
  expect(valued(total("ch4-co2e", mixed))).toBeCloseTo(ch4, 9);
  expect(valued(total("n2o-co2e", mixed))).toBeCloseTo(((4 * 47.3 * 0.1 + 20 * 15.6 * 4) * 273) / 1e6, 9);
  expect(valued(total("n2o-co2e", mixed, [], "AR5"))).toBeCloseTo(((4 * 47.3 * 0.1 + 20 * 15.6 * 4) * 265) / 1e6, 9);
});

test("electricity has no CO2 until a factor is set, and is not counted as nothing", () => {
  expect(total("electricity-co2", mixed)).toMatchObject({ known: false, why: "no-factor-set" });
  const grid = fact(
    "fuel-factor",
    { mjPerUnit: 3.6, co2KgPerUnit: 0.4, source: "grid office" },
    { key: "electricity" },
  );
  expect(valued(total("electricity-co2", mixed, [grid]))).toBeCloseTo(12, 12);
});

test("a month that burned wood alone has 0 kg of fossil CO2; a month without known fuel has none", () => {
  expect(valued(total("fossil-co2", [mixed[1]!]))).toBe(0);
  expect(total("fossil-co2", [])).toMatchObject({ known: false, why: "no-fuel-known" });
  const pending = span("2031-06-02", "2031-06-02", null, { how: "pending" });
  expect(total("fossil-co2", [pending])).toMatchObject({ known: false, why: "fuel-window-open" });
});

test("gas shared with the kitchen gives its lines no figure but a bound; the other lines stand", () => {
  const spans = [span("2031-06-02", "2031-06-05", 4, { shared: true }), mixed[1]!];
  const fuel = fuelOf(sums, spans, [], daysOfMonth("2031-06"), null);
  expect(total("fossil-co2", spans)).toMatchObject({ known: false, why: "fuel-shared-with-kitchen" });
  expect(valued(fuelTotalAtMost("fossil-co2", fuel, [], ABOUT, "AR6")!)).toBeCloseTo(4 * 2.98463, 9);
  expect(valued(total("biogenic-co2", spans))).toBeCloseTo(20 * 1.7472, 9);
});

test("counted cylinders carry their bounds to the CO2, in quadrature and never beyond their ends", () => {
  const counted = span("2031-06-01", "2031-06-30", 52, { low: 39, high: 65, how: "cylinder-count" });
  const figure = total("fossil-co2", [counted]);
  if (!figure.known || !figure.interval) throw new Error("unknown");
  expect(figure.interval.high - figure.value).toBeCloseTo(1.959964 * 5.3072 * 2.98463, 2);
  expect(figure.interval.high).toBeLessThan(65 * 2.98463);
});
