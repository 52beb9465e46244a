import { deflateRawSync, inflateRawSync } from "node:zlib";
import { answers } from "#server/api/logs";
import type { Answers } from "#server/terms/row";

/** Longer addresses are refused on the way. */
const LONGEST = 8000;

/** Answers as a part of an address, so that a log can be looked at with them before anything is stored; null if too many. */
export function packSaid(said: Answers): string | null {
  return pack(said);
}

/** The answers in an address; null where there are none or somebody has changed them. */
export function unpackSaid(packed: string | undefined): Answers | null {
  return answers.safeParse(unpack(packed)).data ?? null;
}

/** Any JSON as a part of an address; null when it is too long for one. */
export function pack(value: unknown): string | null {
  const packed = deflateRawSync(JSON.stringify(value)).toString("base64url");
  return packed.length > LONGEST ? null : packed;
}

/** What an address carries, still to be checked; null where it carries nothing that can be unpacked. */
export function unpack(packed: string | undefined): unknown {
  if (packed === undefined || packed === "" || packed.length > LONGEST) return null;
  try {
    return JSON.parse(inflateRawSync(Buffer.from(packed, "base64url"), { maxOutputLength: 2 ** 20 }).toString("utf8"));
  } catch {
    return null;
  }
}
