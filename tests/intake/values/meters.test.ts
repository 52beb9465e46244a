import { expect, test } from "vitest";
import { readMeter } from "#server/intake/values/meters";
import { written } from "./cells";

test.each([
  { text: "8 %", exact: "0.08" },
  { text: "8", exact: "0.08" },
  { text: "0.08", exact: "0.08" },
  { text: "0,08", exact: "0.08" },
  { text: "6.5%", exact: "0.065" },
])("moisture of $text is a share of $exact", ({ text, exact }) => {
  expect(readMeter(written(text), null, true)).toEqual({ exact, value: Number(exact) });
});

test("another meter shows what it shows", () => {
  expect(readMeter(written("0.62"), null, false)).toEqual({ exact: "0.62", value: 0.62 });
  expect(readMeter(written("3.500"), ".", false)).toEqual({ exact: "3.5", value: 3.5 });
});

test.each(["-3", "wet", "3.500", "~8"])("%s is unread, and no zero", (text) => {
  expect(readMeter(written(text), null, true)).toBe("unread");
});

test.each(["", "-", "n.a."])("“%s” says nothing", (text) => {
  expect(readMeter(written(text), null, true)).toBeNull();
});
