import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

const css = readFileSync("app/tokens.css", "utf8");
const tokens = new Map(
  [...css.matchAll(/--([\w-]+): light-dark\((#\w{6}), (#\w{6})\)/g)].map(([, name = "", light = "", dark = ""]) => [
    name,
    { light, dark },
  ]),
);

const TEXT = ["ink", "quiet", "deep", "held", "wrong"];
const GROUNDS = ["paper", "sheet", "well", "held-wash", "wrong-wash"];
/** Borders of controls and the strips that carry meaning. */
const GRAPHICS = ["edge", "deep", "counted", "held", "aside"];

test("black on white is 21 to 1, as WCAG 2.2 has it", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 6);
  expect(contrast("#777777", "#ffffff")).toBeCloseTo(4.48, 2); // known as the grey that just fails
});

test.each(["light", "dark"] as const)("text can be read on every ground, %s (WCAG 2.2, 1.4.3: 4.5 to 1)", (theme) => {
  for (const text of TEXT) {
    for (const ground of GROUNDS) {
      expect(contrast(of(text, theme), of(ground, theme)), `${text} on ${ground}`).toBeGreaterThanOrEqual(4.5);
    }
  }
  expect(contrast(of("on-deep", theme), of("deep", theme))).toBeGreaterThanOrEqual(4.5);
});

test.each(["light", "dark"] as const)("controls and marks stand out, %s (WCAG 2.2, 1.4.11: 3 to 1)", (theme) => {
  for (const mark of GRAPHICS) {
    for (const ground of ["paper", "sheet"]) {
      expect(contrast(of(mark, theme), of(ground, theme)), `${mark} on ${ground}`).toBeGreaterThanOrEqual(3);
    }
  }
});

function of(token: string, theme: "light" | "dark"): string {
  const found = tokens.get(token);
  if (found === undefined) throw new Error(`there is no colour ${token}`);
  return found[theme];
}

/** WCAG 2.2, definition of contrast ratio and relative luminance. */
function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const channel = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
