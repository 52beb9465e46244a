import fc from "fast-check";
import { expect, test } from "vitest";
import { decode } from "#server/intake/grid/decode";

const LOG = "Date,Pan,Remarks\r\n2031-06-03,1,séchée à 180 °C\r\n";

function wide(text: string, bigEndian: boolean, mark: boolean): Uint8Array {
  const units = `${mark ? "\ufeff" : ""}${text}`.split("").map((unit) => unit.charCodeAt(0));
  return Uint8Array.from(units.flatMap((unit) => (bigEndian ? [unit >> 8, unit & 255] : [unit & 255, unit >> 8])));
}

test.each([
  { said: "UTF-8", bytes: new TextEncoder().encode(LOG), notes: [] },
  { said: "UTF-8 with its mark", bytes: new TextEncoder().encode(`\ufeff${LOG}`), notes: [] },
  { said: "UTF-16 by its mark", bytes: wide(LOG, false, true), notes: ["read-as-utf-16"] },
  { said: "UTF-16, high byte first", bytes: wide(LOG, true, true), notes: ["read-as-utf-16"] },
  { said: "UTF-16 by its pattern", bytes: wide(LOG, false, false), notes: ["read-as-utf-16"] },
  { said: "UTF-16, high byte first, by its pattern", bytes: wide(LOG, true, false), notes: ["read-as-utf-16"] },
  {
    said: "Windows-1252",
    bytes: Uint8Array.from([...LOG].map((c) => c.charCodeAt(0))),
    notes: ["read-as-windows-1252"],
  },
])("decode reads $said", ({ bytes, notes }) => {
  const decoded = decode(bytes);
  expect(decoded.text).toBe(LOG);
  expect(decoded.notes.map((note) => note.code)).toEqual(notes);
});

test("the marks that Windows-1252 has beyond Latin-1 are read as themselves", () => {
  // Source: WHATWG Encoding Standard, index-windows-1252: 0x80 is U+20AC, 0x96 is U+2013, 0x92 is U+2019, 0x9F is U+0178
  const bytes = Uint8Array.from([0x80, 0x96, 0x92, 0x9f, 0xe9, 0x41]);
  expect(decode(bytes).text).toBe("€–’ŸéA");
});

test("a damaged character in a text of UTF-8 is marked, the others stay", () => {
  const bytes = [...new TextEncoder().encode("é,é,é,é,é,"), 0xc3, 0x2c];
  const decoded = decode(Uint8Array.from(bytes));
  expect(decoded.text).toBe("é,é,é,é,é,\ufffd,");
  expect(decoded.notes).toEqual([{ code: "damaged-characters", detail: "1" }]);
});

test("zero bytes behind the text are left out and counted", () => {
  const decoded = decode(Uint8Array.from([65, 44, 66, 10, 0, 0, 0]));
  expect(decoded).toEqual({ text: "A,B\n", notes: [{ code: "zero-bytes-left-out", detail: "3" }] });
});

test("decode gives back any text that was written as UTF-8", () => {
  fc.assert(
    fc.property(fc.string({ unit: "grapheme", minLength: 1 }), (text) => {
      fc.pre(!text.includes("\0") && !text.startsWith("\ufeff"));
      expect(decode(new TextEncoder().encode(text)).text).toBe(text);
    }),
  );
});

test("letters of Latin-1 are read as a decoder reads them, with a letter beyond them at any place or none", () => {
  const latin = fc.string({ unit: fc.integer({ min: 1, max: 0xff }).map((code) => String.fromCharCode(code)) });
  fc.assert(
    fc.property(
      latin,
      fc.constantFrom("", "Ā", "ÿ", "€", "🐛"),
      latin,
      fc.boolean(),
      (before, beyond, after, marked) => {
        const bytes = new TextEncoder().encode(`${marked ? "\ufeff" : ""}${before}${beyond}${after}`);
        expect(decode(bytes).text).toBe(new TextDecoder().decode(bytes));
      },
    ),
    { numRuns: 500 },
  );
});
