import { expect, test } from "vitest";
import type { Hints } from "#server/terms/row";
import { lines, readLines } from "../readings";

const fuelLine = (hints: Hints, heading: string, cells: string) =>
  lines(readLines(hints, `Date | ${heading} | In (kg) | Out (kg)`, `13/6/31 | ${cells} | 10 | 3`))[1]
    ?.replace("2 ", "")
    .replace(" 2031-06-13 10>3", "");

test.each<[string, string, string]>([
  ["LPG (kg)", "1.25", "counted 2031-06-13 lpg 1.25kg"],
  ["LPG (kg)", "0", "counted 2031-06-13 lpg 0kg"],
  ["LPG (kg)", "-", "counted"],
  ["LPG (kg)", "n/a", "counted"],
  ["LPG (kg)", "changed", "counted 2031-06-13 lpg cylinder x1"],
  ["LPG (kg)", "2 cylinders", "counted 2031-06-13 lpg cylinder x2"],
  ["Firewood", "14 kg", "counted 2031-06-13 firewood 14kg"],
  ["Firewood", "14", "held | fuel-unit-unknown"],
  ["Firewood (kg)", "many", "held | fuel-not-a-number"],
  ["Firewood (kg)", "-3", "held | fuel-negative"],
  ["Firewood (kg)", "2 bundles", "held | container-without-weight"],
  ["kWh", "3.2", "counted 2031-06-13 electricity 3.2kWh"],
  ["Kerosene (L)", "1.5", "counted 2031-06-13 kerosene 1.5L"],
  ["Kerosene", "2 litres", "counted 2031-06-13 kerosene 2L"],
  ["Pétrole (l)", "1,5", "counted 2031-06-13 kerosene 1.5L"],
  ["Cylinder changed", "x", "counted 2031-06-13 lpg cylinder x1"],
  ["Cylinder changed", "no", "counted"],
  ["Cylinder changed", "2", "counted 2031-06-13 lpg cylinder x2"],
  ["Cylinder changed", "maybe", "counted | cell-not-read"],
  ["Fuel | Fuel used (kg)", "rice husk | 8", "counted 2031-06-13 other-biomass 8kg"],
  ["Fuel | Fuel used (kg)", "ember | 8", "held | fuel-type-unknown"],
  ["Cyl before (kg) | Cyl after (kg)", "27.4 | 22.45", "counted 2031-06-13 lpg gross 27.4>22.45"],
  ["Cyl before (kg) | Cyl after (kg)", "27.4 |", "counted 2031-06-13 lpg gross 27.4>?"],
  ["Cyl before (kg) | Cyl after (kg)", "22 | 27.4", "held 2031-06-13 lpg gross 22>27.4 | fuel-negative"],
])("%s: “%s” is %s", (heading, cells, becomes) => {
  expect(fuelLine({}, heading, cells)).toBe(becomes);
});

test("what the site declared fills the unit and the kind of a fuel", () => {
  expect(fuelLine({ fuelUnit: "kg" }, "Firewood", "14")).toBe("counted 2031-06-13 firewood 14kg");
  expect(fuelLine({ fuel: "charcoal" }, "Fuel used (kg)", "4")).toBe("counted 2031-06-13 charcoal 4kg");
  expect(fuelLine({ containers: { bundle: 9.5 } }, "Firewood (kg)", "2 bundles")).toBe(
    "counted 2031-06-13 firewood 19kg",
  );
});

test("fuel without a day is held, and the kind of fuel written once holds below", () => {
  const read = readLines(
    {},
    "Date | Fuel | Fuel used (kg) | In (kg)",
    "13/6/31 | wood | 8 | 10",
    "14/6/31 | | 7 | 10",
    "someday | | 7 |",
  );
  expect(lines(read).slice(1)).toEqual([
    "2 counted 2031-06-13 10>? 2031-06-13 firewood 8kg | dried-to-come",
    "3 counted 2031-06-14 10>? 2031-06-14 firewood 7kg | dried-to-come",
    "4 held | day-not-a-date",
  ]);
});
