import type { BatchWritten } from "#server/terms/batch";

/** A counted row on its way to its batch. `key` is "sheet!row". */
export interface MatchRow {
  readonly key: string;
  readonly batch: BatchWritten;
  readonly driedOnly: boolean;
  /** what a person said that it is: "new", "instead" of the loads that it may be the sum of, or the id of a batch */
  readonly is?: string;
}

/** A batch of the same site as it stands now, and the file that said so last. */
export interface KnownBatch {
  readonly id: string;
  readonly batch: BatchWritten;
  readonly from: string;
}

/**
 * What a row is to the batches that are known: a new one, the same again, a change of one, the dried weight that
 * one was waiting for, or doubtful, which a person must settle. `batch` is null for new and doubtful rows.
 *
 * A set that takes the place of its loads is new; so is a row that tells of several at once nothing but what they
 * add up to the same. In both `members` are those loads. Of a doubtful row they are the batches that it may be.
 */
export interface Match {
  readonly key: string;
  readonly kind: "new" | "same" | "changed" | "joins-dried" | "takes-place" | "doubtful";
  readonly batch: string | null;
  readonly members: readonly string[];
}

/** How far a declared number reaches: never twice at the site, or never twice in a day. */
export type Numbering = "site" | "day";
