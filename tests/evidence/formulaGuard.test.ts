import fc from "fast-check";
import { expect, test } from "vitest";
import { guarded, unguarded } from "#server/evidence/formulaGuard";

/** First characters of OWASP ASVS 5.0, V1.2.10 (=, +, -, @, tab, NUL), then those that spreadsheets treat alike. */
const TRIGGERS = ["=", "+", "-", "@", "\t", "\0", "\r", "\n", "＝", "＋", "－", "＠"];

test.each([
  ["=2+2", "'=2+2"],
  ["+1 234", "'+1 234"],
  ["-11.5 kg", "'-11.5 kg"],
  ["@SUM(1)", "'@SUM(1)"],
  ["\t=5+5", "'\t=5+5"],
  ["＝cmd|' /C calc'!A0", "'＝cmd|' /C calc'!A0"],
  ["'=2+2", "''=2+2"],
  ["''-1", "'''-1"],
  ["O'Hara", "O'Hara"],
  ["'t Hooft", "'t Hooft"],
  ["'", "'"],
  ["", ""],
  ["3-4", "3-4"],
])("%j is written as %j and read back as it was", (text, written) => {
  expect(guarded(text)).toBe(written);
  expect(unguarded(written)).toBe(text);
});

test("nothing begins with a trigger, and every text comes back, whatever it is", () => {
  const texts = fc
    .tuple(fc.constantFrom("", "'", "''"), fc.constantFrom("", ...TRIGGERS), fc.string({ unit: "binary" }))
    .map((parts) => parts.join(""));
  fc.assert(
    fc.property(texts, (text) => {
      expect(TRIGGERS.some((trigger) => guarded(text).startsWith(trigger))).toBe(false);
      expect(unguarded(guarded(text))).toBe(text);
    }),
    { seed: 7 },
  );
});

test("what was not guarded loses nothing when it is read", () => {
  for (const text of ["'abc", "''", "abc'=", " =1"]) expect(unguarded(text)).toBe(text);
});
