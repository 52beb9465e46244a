import { crc32, inflateRawSync } from "node:zlib";
import type { Bounds, Unreadable } from "#server/terms/row";
import { directoryOf, type Part } from "./directory";

/** A checked archive: its parts can be unpacked one by one, never to more than was declared and allowed. */
export interface Archive {
  readonly parts: ReadonlyMap<string, Part>;
  unpack(part: Part): Uint8Array | Unreadable;
}

/** Ratio above which a part is no honest sheet; small parts may be as even as they like. */
const HIGHEST_RATIO = 200;
const SMALL_PART = 1 << 20;

/**
 * Opens an archive after everything that its directory says was checked: entries, names, methods, encryption, overlap,
 * declared sizes against the bounds and against what was packed. Nothing is unpacked before.
 */
export function openArchive(bytes: Uint8Array, bounds: Bounds): Archive | Unreadable {
  const parts = directoryOf(bytes);
  if ("refused" in parts) return parts;
  let total = 0;
  for (const part of parts.values()) {
    total += part.unpacked;
    if (part.unpacked > SMALL_PART && part.unpacked > HIGHEST_RATIO * part.packed) {
      return { refused: "unpacks-too-large", detail: `${part.name}: ${Math.round(part.unpacked / part.packed)} : 1` };
    }
  }
  if (total > bounds.unpackedBytes) {
    return { refused: "unpacks-too-large", detail: `${total} > ${bounds.unpackedBytes}` };
  }
  return { parts, unpack: (part) => unpack(bytes, part) };
}

/** The bytes of a part, if they are as many as declared and add up to its checksum. */
function unpack(bytes: Uint8Array, part: Part): Uint8Array | Unreadable {
  const packed = bytes.subarray(part.from, part.from + part.packed);
  let content = packed;
  if (part.method === 8) {
    try {
      content = inflateRawSync(packed, { maxOutputLength: Math.max(1, part.unpacked) });
    } catch (error) {
      const over = error instanceof RangeError;
      return { refused: over ? "unpacks-too-large" : "damaged-archive", detail: part.name };
    }
  }
  if (content.length !== part.unpacked || crc32(content) !== part.crc) {
    return { refused: "damaged-archive", detail: part.name };
  }
  return content;
}
