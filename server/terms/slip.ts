import type { ProblemCode } from "./problem";
import type { TotalCheck } from "./row";

/** A row that waits for an answer, as a sending slip lists it. */
export interface SlipRow {
  readonly sheet: string;
  readonly row: number;
  readonly column: string | null;
  readonly code: ProblemCode;
  readonly text: string;
}

/**
 * The sending slip: proof that a log arrived, and an account of every row of it.
 *
 * It depends on the content alone and on when it arrived, so the same log sent again gets the same slip.
 */
export interface Slip {
  /** short enough to read out: "EV-7K3M9QAF" */
  readonly code: string;
  readonly file: string;
  /** code of the site; null for a log of the programme */
  readonly site: string | null;
  readonly sha256: string;
  readonly bytes: number;
  readonly arrivedAt: string;
  readonly ledgerIndex: number;
  readonly rows: { readonly rows: number; readonly counted: number; readonly held: number; readonly setAside: number };
  readonly batches: {
    readonly new: number;
    readonly changed: number;
    readonly same: number;
    readonly joined: number;
    readonly vanished: number;
    /** batches that were withdrawn with this log, because it lacks them and a person said so */
    readonly withdrawn?: number;
  };
  readonly months: readonly string[];
  readonly freshKg: number | null;
  readonly driedKg: number | null;
  readonly driedToCome: number;
  readonly held: readonly SlipRow[];
  readonly totals: readonly TotalCheck[];
  /** questions about the log as a whole, and faults that it shows, that nobody has answered */
  readonly open?: number;
}
