import fc from "fast-check";
import { expect, test } from "vitest";
import { canonical, decimalOf, plus, times } from "#server/intake/values/exact";

test.each([
  ["007.50", "7.5"],
  ["-0", "0"],
  ["0.000", "0"],
  [".5", "0.5"],
  ["100", "100"],
  ["12.", "12"],
])("%s is written %s", (text, plainly) => {
  expect(canonical(text)).toBe(plainly);
});

test("3300 g are 3.3 kg and 10 lb are 4.5359237 kg, to the last digit", () => {
  expect(times("3300", "0.001")).toBe("3.3");
  expect(times("10", "0.45359237")).toBe("4.5359237");
  expect(plus("12", "0.4")).toBe("12.4");
  expect(plus("0.1", "0.2")).toBe("0.3");
});

test.each([
  [0.30000000000000004, "0.30000000000000004"],
  [1e-7, "0.0000001"],
  [2.5e-7, "0.00000025"],
  [1e21, "1000000000000000000000"],
  [-4, "-4"],
])("the number %s of a spreadsheet is %s", (value, exact) => {
  expect(decimalOf(value)).toBe(exact);
});

test("an exact decimal becomes the double nearest to it", () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e25, max: 1e25 }), (value) => {
      expect(Number(decimalOf(value))).toBe(value === 0 ? 0 : value);
    }),
    { seed: 12 },
  );
});
