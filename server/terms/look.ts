import type { Fault } from "./fault";
import type { FileQuestion } from "./row";

/** What a person sees of a log beside its reading. */
export interface Look {
  /** faults of which it shows the signature and that nobody has answered yet */
  readonly faults: readonly Fault[];
  readonly outcomes: readonly Outcome[];
}

/** What a log would come to with one answer to one of its questions: so that a person sees what follows. */
export interface Outcome {
  readonly code: FileQuestion["code"];
  readonly sheet: string;
  readonly column: string | null;
  readonly choice: string;
  /** other questions are open too: it is reckoned as if their first choice held */
  readonly assumes: boolean;
  readonly counted: number;
  readonly held: number;
  /** pooled dry yield of the loads that would count, kg per kg; null where none has both weights */
  readonly dryYield: number | null;
  /** the middle fresh weight of a load, in kg; null where there is none */
  readonly usualFreshKg: number | null;
  /** first and last day of what would count */
  readonly from: string | null;
  readonly to: string | null;
}

/** How the columns of a log differ from those of an earlier one of its site. Headings as they are written. */
export interface LayoutChange {
  readonly missing: readonly string[];
  readonly added: readonly string[];
  readonly renamed: readonly { readonly from: string; readonly to: string }[];
  readonly units: readonly { readonly heading: string; readonly from: string; readonly to: string }[];
  /** the dates are written in another order */
  readonly dayOrder: { readonly from: string; readonly to: string } | null;
  /** the same columns stand in another order */
  readonly moved: boolean;
}

/** What an earlier log of the site is to this one. */
export interface LikeBefore {
  readonly file: string;
  readonly month: string | null;
  readonly change: LayoutChange;
}
