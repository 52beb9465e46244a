import { deflateRawSync, inflateRawSync } from "node:zlib";
import { z } from "zod";
import { answers } from "#server/api/logs";
import { answersBeyond, laidOver, type Said } from "#server/terms/answers";
import type { Answers } from "#server/terms/row";

/** Longer addresses are refused on the way. */
const LONGEST = 8000;

const carried = z.object({ said: answers, over: z.boolean().optional() });

/**
 * Answers as a part of an address, so that a log can be looked at with them before anything is stored; null if too many.
 * Where they are too many, only what goes beyond those that are kept with the log already.
 */
export function packSaid(said: Said, kept: Answers | null = null): string | null {
  const whole = pack({ said });
  return whole !== null || kept === null ? whole : pack({ said: answersBeyond(said, kept), over: true });
}

/** The answers in an address; null where there are none or somebody has changed them. */
export function unpackSaid(packed: string | undefined, kept: Answers | null = null): Said | null {
  const read = carried.safeParse(unpack(packed)).data;
  if (read === undefined) return null;
  return read.over === true ? laidOver(kept, read.said) : read.said;
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
