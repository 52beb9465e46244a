import { randomBytes } from "node:crypto";
import type { SealedRow } from "#db/queries/sealed";
import { commitment } from "#server/evidence/canonical";

/** A value for the sealed store: everything else learns its commitment alone. */
export function seal(value: string, site: number | null): Omit<SealedRow, "ledgerIndex"> {
  const salt = randomBytes(16).toString("hex");
  return { commitment: commitment(salt, value), salt, value, site };
}
