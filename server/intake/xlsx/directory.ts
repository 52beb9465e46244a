import type { Unreadable } from "#server/terms/row";

/** One part of an archive, as its directory describes it. `from` is where its packed bytes begin. */
export interface Part {
  readonly name: string;
  readonly method: 0 | 8;
  readonly packed: number;
  readonly unpacked: number;
  readonly crc: number;
  readonly from: number;
}

const END = 0x06054b50;
const ENTRY = 0x02014b50;
const LOCAL = 0x04034b50;
const END_BYTES = 22;
const ENTRY_BYTES = 46;
const LOCAL_BYTES = 30;
const MOST_ENTRIES = 200;
const ENCRYPTED = 0x2041;
const UTF8_NAME = 0x0800;

/**
 * The directory of a ZIP archive, checked so that two programs cannot see two different archives in it.
 *
 * The end record stands exactly at the end, the directory right before it; names are unique also without case, relative
 * and without steps upward; every local heading says the same name and method; no two parts share a byte; nothing is
 * encrypted, in several volumes or of the 64-bit form; only stored and deflated parts are known.
 * Source: PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16.
 */
export function directoryOf(bytes: Uint8Array): ReadonlyMap<string, Part> | Unreadable {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = bytes.length - END_BYTES;
  if (end < 0 || view.getUint32(end, true) !== END) return damaged("end record");
  const entries = view.getUint16(end + 10, true);
  const size = view.getUint32(end + 12, true);
  const start = view.getUint32(end + 16, true);
  if (view.getUint16(end + 4, true) !== 0 || view.getUint16(end + 8, true) !== entries) return damaged("volumes");
  if (entries > MOST_ENTRIES) return { refused: "unpacks-too-large", detail: `entries: ${entries} > ${MOST_ENTRIES}` };
  if (entries === 0 || start + size !== end) return damaged("directory");

  const parts = new Map<string, Part>();
  const lower = new Set<string>();
  const spans: { from: number; to: number }[] = [];
  let at = start;
  for (let i = 0; i < entries; i++) {
    if (at + ENTRY_BYTES > end || view.getUint32(at, true) !== ENTRY) return damaged("directory");
    const part = entryAt(bytes, view, at, start);
    if ("refused" in part) return part;
    if (lower.has(part.name.toLowerCase())) return damaged(`twice: ${part.name}`);
    lower.add(part.name.toLowerCase());
    spans.push({ from: part.local, to: part.from + part.packed });
    if (!part.name.endsWith("/")) parts.set(part.name, part);
    at += ENTRY_BYTES + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  if (at !== end) return damaged("directory");
  spans.sort((a, b) => a.from - b.from);
  for (let i = 1; i < spans.length; i++) if (spans[i]!.from < spans[i - 1]!.to) return damaged("overlap");
  return parts;
}

function entryAt(
  bytes: Uint8Array,
  view: DataView,
  at: number,
  start: number,
): (Part & { local: number }) | Unreadable {
  const flags = view.getUint16(at + 8, true);
  const method = view.getUint16(at + 10, true);
  const packed = view.getUint32(at + 20, true);
  const unpacked = view.getUint32(at + 24, true);
  const nameLength = view.getUint16(at + 28, true);
  const local = view.getUint32(at + 42, true);
  const name = nameAt(bytes, at + ENTRY_BYTES, nameLength, flags);
  if (name === null || /^[/\\]|\\|(?:^|\/)\.\.(?:\/|$)|^[A-Za-z]:|\0/.test(name)) return damaged("name");
  if ((flags & ENCRYPTED) !== 0) return { refused: "encrypted", detail: name };
  if (method !== 0 && method !== 8) return damaged(`method ${method}`);
  if (packed === 0xffffffff || unpacked === 0xffffffff || local === 0xffffffff) return damaged("64-bit");
  if (method === 0 && packed !== unpacked) return damaged(name);
  if (local + LOCAL_BYTES > start || view.getUint32(local, true) !== LOCAL) return damaged(name);
  const localLength = view.getUint16(local + 26, true);
  const from = local + LOCAL_BYTES + localLength + view.getUint16(local + 28, true);
  if (from + packed > start) return damaged(name);
  if (nameAt(bytes, local + LOCAL_BYTES, localLength, flags) !== name) return damaged(`two names: ${name}`);
  if (view.getUint16(local + 8, true) !== method || (view.getUint16(local + 6, true) & ENCRYPTED) !== 0) {
    return damaged(`two headings: ${name}`);
  }
  return { name, method, packed, unpacked, crc: view.getUint32(at + 16, true), from, local };
}

/** A part's name; null when it is not valid text. Names without the UTF-8 flag are taken as they are, byte by byte. */
function nameAt(bytes: Uint8Array, from: number, length: number, flags: number): string | null {
  const part = bytes.subarray(from, from + length);
  if ((flags & UTF8_NAME) === 0) return new TextDecoder("latin1").decode(part);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(part);
  } catch {
    return null;
  }
}

function damaged(detail: string): Unreadable {
  return { refused: "damaged-archive", detail };
}
