import { expect, test } from "vitest";
import { type Measure, readMass } from "#server/intake/values/masses";
import { stored, written } from "./cells";

const KG: Measure = { unit: "kg", mark: ".", containers: { bucket: 8.5, seau: 10 } };
const BARE: Measure = { unit: null, mark: ".", containers: {} };

test.each<[string, string]>([
  ["3.2", "3.2"],
  ["12kg", "12"],
  ["12 KG", "12"],
  ["12 kilos", "12"],
  ["3300 g", "3.3"],
  ["3200g", "3.2"],
  ["450 grs", "0.45"],
  ["10 lbs", "4.5359237"],
  ["16 oz", "0.45359237"],
  ["1.2 t", "1200"],
  ["12 kg 400 g", "12.4"],
  ["12 kg et 400 gr", "12.4"],
  ["10+10+8", "28"],
  ["=10+12", "22"],
  ["2 buckets", "17"],
  ["1 seau", "10"],
  ["3.500", "3.5"],
  ["3.500 kg", "3.5"],
])("“%s” in a column of kg is %s kg", (text, exact) => {
  expect(readMass(written(text), KG)).toMatchObject({ kind: "mass", mass: { exact, value: Number(exact) } });
});

test.each([
  ["3 haces", "haz"],
  ["3 haz", "haces"],
  ["3 quintaux", "quintal"],
  ["3 quintal", "quintaux"],
  ["3 quintais", "quintal"],
  ["3 magunia", "gunia"],
  ["3 debe", "madebe"],
  ["3 mifuko", "mfuko"],
  ["3 stères", "stere"],
])("“%s” finds the weight that was declared for “%s”", (text, name) => {
  expect(readMass(written(text), { ...BARE, containers: { [name]: 12.5 } })).toMatchObject({ mass: { exact: "37.5" } });
});

test.each([
  ["18 kg in", "fresh", "18", true],
  ["18 in", "fresh", "18", false],
  ["5900 g out", "dried", "5.9", true],
  ["5.9 out", "dried", "5.9", false],
  ["5,9 kg sortie", "dried", "5.9", true],
] as const)("“%s” in the column of the %s weight is %s kg", (text, weight, exact, unitFromCell) => {
  expect(readMass(written(text), { ...KG, weight })).toMatchObject({ mass: { exact }, unitFromCell });
});

test.each([
  ["5.9 out", "fresh"],
  ["18 in", "dried"],
  ["18 kg spilled", "fresh"],
] as const)("“%s” in the column of the %s weight is held", (text, weight) => {
  expect(readMass(written(text), { ...KG, weight })).toMatchObject({ code: "mass-not-a-number" });
});

test("a unit in the cell beats the column's and is told", () => {
  expect(readMass(written("3.3 kg"), { ...KG, unit: "g" })).toMatchObject({
    mass: { exact: "3.3" },
    unitFromCell: true,
  });
  expect(readMass(written("3300"), { ...KG, unit: "g" })).toMatchObject({
    mass: { exact: "3.3" },
    unitFromCell: false,
  });
});

test.each<[string, string, string[]]>([
  ["~12", "mass-not-a-number", ["12 kg"]],
  ["10/3,2", "mass-not-a-number", []],
  ["12-13", "mass-not-a-number", []],
  ["a lot", "mass-not-a-number", []],
  ["-5", "mass-negative", []],
  ["#REF!", "mass-error-cell", []],
  ["#VALUE!", "mass-error-cell", []],
  ["#DIV/0!", "mass-error-cell", []],
  ["#####", "mass-error-cell", []],
  ["2 debes", "container-without-weight", []],
  ["3 quintaux", "container-without-weight", []],
])("“%s” is held as %s", (text, code, puts) => {
  expect(readMass(written(text), KG)).toEqual({ kind: "problem", code, puts });
});

test("“3.500” with nothing to decide its mark is held with both readings and never converted", () => {
  expect(readMass(written("3.500"), { ...KG, mark: null })).toEqual({
    kind: "problem",
    code: "mass-decimal-unclear",
    puts: ["3.5 kg", "3500 kg"],
  });
});

test("a bare number without any unit is held with the units it could have", () => {
  expect(readMass(written("10"), BARE)).toEqual({
    kind: "problem",
    code: "mass-unit-unknown",
    puts: ["10 kg", "10 g", "10 lb"],
  });
  expect(readMass(written("10 kg"), BARE)).toMatchObject({ mass: { exact: "10" } });
});

test.each<[string, string]>([
  ["", "blank"],
  ["-", "blank"],
  ["--", "blank"],
  ["—", "blank"],
  ["?", "blank"],
  ["x", "blank"],
  ["n/a", "missing"],
  ["nil", "missing"],
  ["néant", "missing"],
  ["missing", "missing"],
  ["non pesé", "missing"],
  ["tomorrow", "to-come"],
  ["à peser", "to-come"],
])("“%s” is absent, not zero: %s", (text, why) => {
  expect(readMass(written(text), KG)).toEqual({ kind: "absent", why });
});

test("a spreadsheet's number is taken as it is stored", () => {
  expect(readMass(stored(3.5), { ...KG, mark: null })).toMatchObject({ mass: { exact: "3.5" } });
  expect(readMass({ text: "#N/A", kind: "error", value: null }, KG)).toMatchObject({ code: "mass-error-cell" });
});
