import { randomBytes } from "node:crypto";
import type { SealedRow } from "#db/queries/sealed";
import { commitment } from "#server/evidence/canonical";

/** Hexadecimal digits of a salt of 16 bytes, and so many that are drawn from the system at once. */
const DIGITS = 32;
const DRAWN = 4_096;

let random = "";
let used = 0;

/** A value for the sealed store: everything else learns its commitment alone. */
export function seal(value: string, site: number | null): Omit<SealedRow, "ledgerIndex"> {
  if (used === random.length) [random, used] = [randomBytes(DRAWN).toString("hex"), 0];
  const salt = random.slice(used, used + DIGITS);
  used += DIGITS;
  return { commitment: commitment(salt, value), salt, value, site };
}
