import { expect, test } from "vitest";
import { co2KgPerUnit, firepowerKw, mjPerUnit, woodMjPerKg } from "#server/measures/fuelEnergy";
import { FUEL_FACTORS } from "#server/terms/factors";
import type { FUELS } from "#server/terms/fuel";
import { SOURCES } from "#server/terms/sources";
import { fact } from "./invented";

const of = (fuel: (typeof FUELS)[number], unit: "kg" | "kWh" | "L" | "m3" = "kg") => ({ fuel, unit, to: "2031-06-30" });

// Source: IPCC 2006 Guidelines, Vol. 2, Ch. 1, Tables 1.2 (net heat) and 1.4 (CO2), as transcribed in public copies.
test.each([
  ["lpg", 47.3, 2.98463],
  ["natural-gas", 48.0, 2.6928],
  ["kerosene", 43.8, 3.14922],
  ["diesel", 43.0, 3.1863],
  ["petrol", 44.3, 3.06999],
  ["firewood", 15.6, 1.7472],
  ["other-biomass", 11.6, 1.16],
  ["charcoal", 29.5, 3.304],
  ["biogas", 50.4, 2.75184],
] as const)("a kg of %s gives %f MJ and %f kg of CO2", (fuel, mj, co2) => {
  expect(mjPerUnit(of(fuel), [])).toBe(mj);
  expect(co2KgPerUnit(of(fuel), [])).toBeCloseTo(co2, 5);
});

// Source: Carbon Balance and Management, doi 10.1186/s13021-016-0046-9, Table 1: wood 15.6 TJ/Gg and 403 kg CO2 per MWh.
test("wood agrees with an independent table of kg CO2 per MWh", () => {
  expect((co2KgPerUnit(of("firewood"), [])! / mjPerUnit(of("firewood"), [])!) * 3600).toBeCloseTo(403, 0);
  expect((co2KgPerUnit(of("natural-gas"), [])! / mjPerUnit(of("natural-gas"), [])!) * 3600).toBeCloseTo(202, 0);
});

test("a 13 kg cylinder of gas holds 614.9 MJ and gives 38.80 kg of CO2", () => {
  expect(13 * mjPerUnit(of("lpg"), [])!).toBeCloseTo(614.9, 9);
  expect(13 * co2KgPerUnit(of("lpg"), [])!).toBeCloseTo(38.80019, 5);
});

// Source of the density: UK DESNZ conversion factors 2026, 529.749 kg/m³.
test("a litre of gas is turned into kg by its density first", () => {
  expect(mjPerUnit(of("lpg", "L"), [])).toBeCloseTo(25.0571, 4);
  expect(co2KgPerUnit(of("lpg", "L"), [])).toBeCloseTo(1.5811, 5);
});

test("a kilowatt-hour is 3.6 MJ, and has CO2 only once the programme names a factor", () => {
  expect(mjPerUnit(of("electricity", "kWh"), [])).toBe(3.6);
  expect(co2KgPerUnit(of("electricity", "kWh"), [])).toBeNull();
  const grid = fact("fuel-factor", { mjPerUnit: 9, co2KgPerUnit: 0.5, source: "grid office" }, { key: "electricity" });
  expect(co2KgPerUnit(of("electricity", "kWh"), [grid])).toBe(0.5);
  expect(mjPerUnit(of("electricity", "kWh"), [grid])).toBe(3.6);
});

test("wood by volume has no heat: it must be weighed", () => {
  expect(mjPerUnit(of("firewood", "m3"), [])).toBeNull();
  expect(mjPerUnit(of("charcoal", "L"), [])).toBeNull();
  expect(co2KgPerUnit(of("firewood", "m3"), [])).toBeNull();
});

// Source of the values: Brazil's national energy balance (27.05 MJ/kg charcoal), as its greenhouse gas tool prints it.
test("a national value stands before the published one from its day on", () => {
  const national = fact(
    "fuel-factor",
    { mjPerUnit: 27.05, source: "national balance" },
    { key: "charcoal", from: "2031-06-01" },
  );
  expect(mjPerUnit(of("charcoal"), [national])).toBe(27.05);
  expect(mjPerUnit({ ...of("charcoal"), to: "2031-05-31" }, [national])).toBe(29.5);
  expect(co2KgPerUnit(of("charcoal"), [national])).toBeCloseTo((27.05 * 112_000) / 1e6, 9);
});

// Formula: Wood Fuels Handbook (AIEL 2008); table seen on a public wood-fuel page: 14.72 and 12.58.
test.each([
  [0.2, 14.712, 14.72],
  [0.3, 12.568, 12.58],
  [0, 19, 19],
])("wood of %f moisture has %f MJ per kg, within rounding of the printed %f", (moisture, mj, printed) => {
  expect(woodMjPerKg(moisture)).toBeCloseTo(mj, 3);
  expect(Math.abs(woodMjPerKg(moisture) - printed)).toBeLessThan(0.015);
});

test("4 kg of gas over six and a half hours is a fire of 8.09 kW", () => {
  expect(firepowerKw(4 * 47.3, 6.5)).toBeCloseTo(8.09, 2);
});

test("every factor but electricity's names a source with a title", () => {
  const named = Object.values(FUEL_FACTORS).flatMap(
    ({ mjPerKg, kgPerL, mjPerM3, co2KgPerTj, ch4KgPerTj, n2oKgPerTj }) =>
      [mjPerKg, kgPerL, mjPerM3, co2KgPerTj, ch4KgPerTj, n2oKgPerTj].flatMap((number) => number?.source ?? []),
  );
  expect(named.length).toBeGreaterThan(36);
  for (const id of named) expect(SOURCES[id].title, id).not.toBe("");
});
