import type { Unreadable } from "#server/terms/row";

type Refused = Unreadable["refused"];

const STARTS: readonly (readonly [Refused, readonly number[]])[] = [
  ["pdf", [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ["picture", [0x89, 0x50, 0x4e, 0x47]],
  ["picture", [0xff, 0xd8, 0xff]],
  ["picture", [0x47, 0x49, 0x46, 0x38]],
  ["picture", [0x49, 0x49, 0x2a, 0x00]],
  ["picture", [0x4d, 0x4d, 0x00, 0x2a]],
  ["old-spreadsheet", [0x09, 0x08, 0x10, 0x00]],
  ["old-spreadsheet", [0x09, 0x08, 0x08, 0x00]],
  ["old-spreadsheet", [0x09, 0x04, 0x06, 0x00]],
  ["old-spreadsheet", [0x09, 0x02, 0x06, 0x00]],
  ["not-a-table", [0x1f, 0x8b]],
  ["not-a-table", [0x7b, 0x5c, 0x72, 0x74, 0x66]],
  ["not-a-table", [0x37, 0x7a, 0xbc, 0xaf]],
  ["not-a-table", [0x52, 0x61, 0x72, 0x21]],
];

const COMPOUND = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

/** What a file is by its content: an archive (to be looked into), text (to be read), or a refusal. The name says nothing. */
export function recognise(bytes: Uint8Array): "archive" | "text" | Unreadable {
  if (bytes.length === 0) return { refused: "empty-file", detail: "" };
  if (begins(bytes, [0x50, 0x4b]) && bytes[2]! <= 7 && bytes[3]! <= 8) return "archive";
  if (begins(bytes, COMPOUND)) {
    return { refused: holdsWide(bytes, "EncryptedPackage") ? "encrypted" : "old-spreadsheet", detail: "" };
  }
  for (const [refused, start] of STARTS) if (begins(bytes, start)) return { refused, detail: "" };
  if (ascii(bytes, 0, 4) === "RIFF" && ascii(bytes, 8, 12) === "WEBP") return { refused: "picture", detail: "" };
  if (ascii(bytes, 4, 8) === "ftyp") return { refused: "picture", detail: "" };
  if (ascii(bytes, 0, 2) === "BM" && bytes[6] === 0 && bytes[7] === 0 && bytes[8] === 0) {
    return { refused: "picture", detail: "" };
  }
  return "text";
}

const SAMPLE = 4000;
const MARKUP = /^\s*<(?:\?xml|!doctype|html|table|head|body|meta|svg)\b/i;

/** Refuses text that is no table of cells: markup, a spreadsheet saved as XML, JSON, or bytes that are no text at all. */
export function refuseText(text: string): Unreadable | null {
  if (text.trim() === "") return { refused: "empty-file", detail: "" };
  const start = text.slice(0, SAMPLE);
  if (MARKUP.test(start)) {
    const spreadsheet = start.includes("urn:schemas-microsoft-com:office:spreadsheet") || start.includes("Excel.Sheet");
    return { refused: spreadsheet ? "old-spreadsheet" : "not-a-table", detail: "" };
  }
  if (isJson(text)) return { refused: "not-a-table", detail: "JSON" };
  let odd = 0;
  for (let i = 0; i < start.length; i++) {
    const code = start.charCodeAt(i);
    if ((code < 32 && code !== 9 && code !== 10 && code !== 13) || code === 0xfffd || (code > 126 && code < 160)) odd++;
  }
  return odd > start.length * 0.1 && odd > 8 ? { refused: "not-text", detail: "" } : null;
}

function isJson(text: string): boolean {
  const first = text.trimStart()[0];
  const last = text.trimEnd().at(-1);
  if (!((first === "{" && last === "}") || (first === "[" && last === "]"))) return false;
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

function begins(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, i) => bytes[i] === byte);
}

function ascii(bytes: Uint8Array, from: number, to: number): string {
  return String.fromCharCode(...bytes.subarray(from, to));
}

/** True when the text stands somewhere in the bytes with two bytes a character, as in the directory of a compound file. */
function holdsWide(bytes: Uint8Array, text: string): boolean {
  return new TextDecoder("latin1").decode(bytes).includes([...text].join("\0"));
}
