import fc from "fast-check";
import { expect, test } from "vitest";
import { pictureKind } from "#server/jobs/pictureKind";

const bytes = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

// First bytes as published: JPEG ISO/IEC 10918-1 (SOI), PNG W3C section 5.2, WebP RFC 9649, HEIC ISO/IEC 23008-12, PDF ISO 32000-1.
test.each([
  { starts: "\xff\xd8\xff\xe0\0\x10JFIF", kind: "jpeg" },
  { starts: "\x89PNG\r\n\x1a\n\0\0\0\rIHDR", kind: "png" },
  { starts: "RIFF\x24\0\0\0WEBPVP8 ", kind: "webp" },
  { starts: "\0\0\0\x18ftypheic\0\0\0\0", kind: "heic" },
  { starts: "\0\0\0\x18ftypmif1\0\0\0\0", kind: "heic" },
  { starts: "%PDF-1.7\n", kind: "pdf" },
  { starts: "\0\0\0\x18ftypisom\0\0\0\0", kind: null },
  { starts: "GIF89a", kind: null },
  { starts: "<svg xmlns='http://www.w3.org/2000/svg'>", kind: null },
  { starts: "Date,Fresh (kg)\n", kind: null },
  { starts: "PK\x03\x04", kind: null },
  { starts: "", kind: null },
])("bytes that start with $starts are $kind", ({ starts, kind }) => {
  expect(pictureKind(bytes(starts))).toBe(kind);
});

test("no text of a log is taken for a picture", () => {
  fc.assert(
    fc.property(fc.string({ unit: "grapheme" }), (text) => {
      expect(pictureKind(new TextEncoder().encode(`Date,${text}`))).toBe(null);
    }),
  );
});
