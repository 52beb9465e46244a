/** Where something stands, as the sheet shows it: rows from 1, columns by letter. */
export interface Place {
  readonly sheet: string;
  readonly row: number;
  /** "A", "B", … or null for the whole row */
  readonly column: string | null;
}

/** What becomes of a row. Every row of every file has exactly one fate. */
export type Fate = "counted" | "held" | "set-aside";

/** Reasons why a row is not a batch. */
export const SET_ASIDE = [
  "heading-row",
  "units-row",
  "before-the-table",
  "after-the-table",
  "blank-row",
  "totals-row",
  "note-row",
  "nothing-produced-row",
  "no-table-in-sheet",
  "same-row-already-here",
  "hidden-sheet",
  "set-aside-by-person",
] as const;

/** Reasons why a person must decide before a row can count. */
export const HELD = [
  "day-missing",
  "day-not-a-date",
  "day-order-unclear",
  "day-outside-period",
  "mass-not-a-number",
  "mass-decimal-unclear",
  "mass-unit-unknown",
  "mass-negative",
  "mass-error-cell",
  "container-without-weight",
  "out-more-than-in",
  "unit-slip-suspected",
  "dried-is-zero",
  "minutes-not-a-number",
  "minutes-unclear",
  "end-before-start",
  "fuel-not-a-number",
  "fuel-unit-unknown",
  "fuel-negative",
  "loads-not-a-number",
  "site-unknown",
  "match-doubtful",
  "dried-without-load",
  "row-too-wide",
  "nothing-to-count",
  "column-unclear",
  "fuel-type-unknown",
  "row-cut-short",
] as const;

/** Remarks on a row that counts all the same. */
export const NOTED = [
  "dried-to-come",
  "dried-missing",
  "cell-not-read",
  "repeated-by-ditto",
  "unit-from-site",
  "unit-from-cell",
  "minutes-missing",
  "fresh-missing",
  "midnight-crossed",
  "yield-unusual",
  "mass-lower-bound",
  "day-closed",
  "weighed-together",
  "accepted-as-written",
] as const;

/** Codes never change their meaning once published. */
export type ProblemCode = (typeof SET_ASIDE)[number] | (typeof HELD)[number] | (typeof NOTED)[number];

/** Something a person should know about a row: what, where, and the text as it stands there. */
export interface Problem {
  readonly code: ProblemCode;
  readonly at: Place;
  /** the cell as written; empty when the row as a whole is meant */
  readonly text: string;
  /** choices for the person, where there are some: what it would then be */
  readonly choices?: readonly Choice[];
  /** of what a person accepted as written: the doubt that held the row until then */
  readonly doubt?: ProblemCode;
}

/** One way to settle a held row. */
export interface Choice {
  /** what is put in place of the unclear cell, as plain text that intake reads without doubt: "3.5 kg", "2031-06-03" */
  readonly put: string;
  /** what would follow: dry yield as a share of fresh, or null when it cannot be told */
  readonly yieldThen: number | null;
  /** what goes into another cell of the row at once: the other weight, where both were exchanged */
  readonly with?: { readonly column: string; readonly put: string };
}

/** Doubts that a person may answer with "it stands as written": what can be read counts so, what cannot is left out. */
export const CAN_STAND: ReadonlySet<ProblemCode> = new Set<ProblemCode>([
  "mass-not-a-number",
  "mass-decimal-unclear",
  "mass-unit-unknown",
  "mass-negative",
  "mass-error-cell",
  "container-without-weight",
  "out-more-than-in",
  "unit-slip-suspected",
  "dried-is-zero",
  "minutes-not-a-number",
  "minutes-unclear",
  "end-before-start",
  "row-too-wide",
  "row-cut-short",
]);

/** True when a problem with this code holds its row. */
export function holds(code: ProblemCode): boolean {
  return (HELD as readonly string[]).includes(code);
}
