import { sumOf } from "#server/statistics/sum";
import type { Batch } from "#server/terms/batch";

/** Fields that a batch can be asked for. */
export const FIELDS = ["fresh", "dried", "minutes"] as const;
export type Field = (typeof FIELDS)[number];

/** How many cells are filled of those that should be, over all and by field. */
export interface FieldCompleteness {
  readonly present: number;
  /** of batches that are here and of those that are missing */
  readonly required: number;
  /** null when nothing is required */
  readonly share: number | null;
  /** of the batches that are here: tells a site which column it leaves empty */
  readonly byField: readonly { readonly field: Field; readonly present: number; readonly of: number }[];
}

/**
 * Share of the required cells that are filled, a missing batch lacking all of them. A zero is filled, a blank is not.
 *
 * fieldCompleteness(6 batches here, one without dried weight, none missing, ["fresh", "dried"]) // 11 of 12
 */
export function fieldCompleteness(
  batches: readonly Batch[],
  fields: readonly Field[],
  missing: number,
): FieldCompleteness {
  const byField = fields.map((field) => {
    return { field, present: batches.filter((batch) => batch[field] !== null).length, of: batches.length };
  });
  const present = sumOf(byField, (field) => field.present);
  const required = (batches.length + missing) * fields.length;
  return { present, required, share: required === 0 ? null : present / required, byField };
}
