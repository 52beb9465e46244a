import type { BatchWritten } from "./batch";
import type { Fuel, FuelDeclared, FuelWritten } from "./fuel";

/** A batch as people tell it from others. Masses as they were read, in kg. */
export interface BatchNamed {
  readonly id: string;
  readonly day: string;
  readonly number: string | null;
  readonly pan: string | null;
  readonly startMinute: number | null;
  readonly loads: number;
  readonly fresh: string | null;
  readonly dried: string | null;
}

export type Plain = string | number | boolean | null;

/** One thing about a batch that a log tells otherwise than it was told. */
export interface FieldChanged {
  readonly field: keyof BatchWritten;
  readonly was: Plain;
  readonly is: Plain;
}

/** Loads whose dried weight a row may bring, and the dry yield that they would have, kg per kg. */
export interface JoinOffered {
  readonly loads: readonly BatchNamed[];
  readonly dryYield: number;
  /** the answer that says so */
  readonly put: string;
}

/** A row that says something else than what is here already. */
export interface RowDifference {
  readonly sheet: string;
  readonly row: number;
  readonly verdict: "new" | "changed" | "doubtful" | "joined" | "no-load";
  readonly batch: Omit<BatchNamed, "id"> | null;
  readonly changes: readonly FieldChanged[];
  /** loads that came one by one, in whose place this row stands */
  readonly instead: readonly BatchNamed[];
  /** of a doubtful row: the batches that it may be */
  readonly mayBe: readonly BatchNamed[];
  /** of a dried weight without its load: the loads, one or several together, that it may be of, and what is answered */
  readonly mayJoin: readonly JoinOffered[];
}

type Said = FuelWritten["said"] | FuelDeclared;

export interface FuelDifference {
  readonly day: string;
  readonly fuel: Fuel;
  /** null: it was not here */
  readonly was: Said | null;
  /** null: it goes */
  readonly is: Said | null;
}

/** What storing a log would change in what its sites already have. */
export interface Difference {
  readonly counts: {
    readonly new: number;
    readonly changed: number;
    readonly same: number;
    readonly joined: number;
    readonly doubtful: number;
    readonly noLoad: number;
  };
  /** rows that are not the same, at most some hundred; first some of those that ask something, then changed and new ones */
  readonly rows: readonly RowDifference[];
  readonly fuel: readonly FuelDifference[];
  /** batches of the same days that earlier logs brought and this one lacks: they stay unless somebody says otherwise */
  readonly vanished: readonly BatchNamed[];
  /** earlier logs that brought what comes again or lacks, by their codes */
  readonly earlier: readonly { readonly file: string; readonly code: string }[];
}
