import { deflateRawSync, inflateRawSync } from "node:zlib";
import { answers } from "#server/api/logs";
import type { Answers } from "#server/terms/row";

/** Longer addresses are refused on the way. */
const LONGEST = 8000;

/** Answers as a part of an address, so that a log can be looked at with them before anything is stored; null if too many. */
export function packSaid(said: Answers): string | null {
  const packed = deflateRawSync(JSON.stringify(said)).toString("base64url");
  return packed.length > LONGEST ? null : packed;
}

/** The answers in an address; null where there are none or somebody has changed them. */
export function unpackSaid(packed: string | undefined): Answers | null {
  if (packed === undefined || packed === "" || packed.length > LONGEST) return null;
  try {
    const text = inflateRawSync(Buffer.from(packed, "base64url"), { maxOutputLength: 2 ** 20 }).toString("utf8");
    return answers.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
