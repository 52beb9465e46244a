import { isUtf8 } from "node:buffer";

/** What a file's bytes say as text, and what had to be decided to read them. */
export interface Decoded {
  readonly text: string;
  readonly notes: readonly { readonly code: string; readonly detail: string }[];
}

/** Bytes looked at when the encoding is told from its pattern. */
const PATTERN_BYTES = 4096;
const UTF8_MARK = [0xef, 0xbb, 0xbf];
/** The first byte with which UTF-8 begins letters beyond Latin-1. Source: RFC 3629, section 3. */
const BEYOND_LATIN = 0xc4;

/**
 * Turns bytes into text, without their byte order mark.
 *
 * A byte order mark decides; without one, zero bytes on every other place mean UTF-16; what is valid UTF-8 is UTF-8;
 * the rest is Windows-1252, unless far more of it is UTF-8 than is not: then single damaged characters are marked.
 * Zero bytes at the end are padding of a broken save and are left out. Every decision but UTF-8 leaves a note.
 */
export function decode(bytes: Uint8Array): Decoded {
  const wide = wideEncoding(bytes);
  if (wide !== null) {
    const text = new TextDecoder(wide).decode(bytes);
    return withoutPadding(text, [{ code: "read-as-utf-16", detail: wide }]);
  }
  return isUtf8(bytes) ? withoutPadding(fromUtf8(bytes), []) : withoutPadding(...notUtf8(bytes));
}

/** Encoding of two-byte text by its mark or by where its zero bytes stand; null for text of single bytes. */
function wideEncoding(bytes: Uint8Array): "utf-16le" | "utf-16be" | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  const pairs = Math.floor(Math.min(bytes.length, PATTERN_BYTES) / 2);
  if (pairs < 2) return null;
  let first = 0;
  let second = 0;
  for (let pair = 0; pair < pairs; pair++) {
    if (bytes[2 * pair] === 0) first++;
    if (bytes[2 * pair + 1] === 0) second++;
  }
  if (second > pairs * 0.4 && first < pairs * 0.05) return "utf-16le";
  if (first > pairs * 0.4 && second < pairs * 0.05) return "utf-16be";
  return null;
}

/**
 * The same as a decoder makes of it, and sooner: most logs have no letter beyond Latin-1, and the bytes of such a text
 * become the text as they are.
 */
function fromUtf8(bytes: Uint8Array): string {
  const from = UTF8_MARK.every((byte, at) => bytes[at] === byte) ? UTF8_MARK.length : 0;
  const latin = Buffer.allocUnsafe(bytes.length - from);
  let length = 0;
  for (let at = from; at < bytes.length; at++) {
    const byte = bytes[at]!;
    if (byte >= BEYOND_LATIN)
      return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("utf8", from);
    // two bytes of U+0080 to U+00FF: the last two bits of the first, and six of the second
    latin[length++] = byte < 0x80 ? byte : ((byte & 0x03) << 6) | (bytes[++at]! & 0x3f);
  }
  return latin.toString("latin1", 0, length);
}

function notUtf8(bytes: Uint8Array): [string, Decoded["notes"]] {
  const lenient = new TextDecoder("utf-8").decode(bytes);
  let damaged = 0;
  let beyondAscii = 0;
  for (let i = 0; i < lenient.length; i++) {
    const code = lenient.charCodeAt(i);
    if (code === 0xfffd) damaged++;
    else if (code > 0x7f) beyondAscii++;
  }
  if (beyondAscii > 3 * damaged) return [lenient, [{ code: "damaged-characters", detail: String(damaged) }]];
  return [fromWindows1252(bytes), [{ code: "read-as-windows-1252", detail: "" }]];
}

/** What Windows-1252 has in the places 0x80 to 0x9F; the five that it leaves open stay control characters. */
const WINDOWS_1252 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";

/** Written out, because some versions of Node read these places as Latin-1. Source: WHATWG Encoding, index-windows-1252. */
function fromWindows1252(bytes: Uint8Array): string {
  const text = new TextDecoder("latin1").decode(bytes);
  return text.replace(/[\u0080-\u009f]/g, (character) => WINDOWS_1252[character.charCodeAt(0) - 0x80]!);
}

function withoutPadding(text: string, notes: Decoded["notes"]): Decoded {
  let end = text.length;
  while (end > 0 && text.charCodeAt(end - 1) === 0) end--;
  if (end === text.length) return { text, notes };
  return {
    text: text.slice(0, end),
    notes: [...notes, { code: "zero-bytes-left-out", detail: String(text.length - end) }],
  };
}
