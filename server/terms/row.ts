import type { Answers, Remembered } from "./answers";
import type { BatchWritten } from "./batch";
import type { Fuel, FuelWritten } from "./fuel";
import type { Look } from "./look";
import type { Fate, Place, Problem } from "./problem";
import type { SoFar } from "./soFar";

export type { Answers, Remembered } from "./answers";

/** What a column of a log can mean. One line per meaning in every language's heading list. */
export const MEANINGS = [
  "batch-number",
  "day",
  "site",
  "harvest",
  "fresh",
  "dried",
  "dried-day",
  "loads",
  "start",
  "end",
  "minutes",
  "method",
  "fuel-type",
  "fuel-amount",
  "lpg",
  "natural-gas",
  "biogas",
  "firewood",
  "charcoal",
  "other-biomass",
  "electricity",
  "kerosene",
  "diesel",
  "petrol",
  "cylinder-before",
  "cylinder-after",
  "cylinder-change",
  "sand-kg",
  "sand-cycle",
  "new-sand",
  "pan",
  "operator",
  "labour",
  "moisture-in",
  "moisture-out",
  "water-activity",
  "temperature",
  "crush-test",
  "crisp",
  "colour",
  "rejects",
  "packed",
  "waste-in",
  "remarks",
] as const;
export type Meaning = (typeof MEANINGS)[number];

/** How sure the reading of a column is. "asked" waits for an answer and holds every row that needs the column. */
export type Sure = "sure" | "likely" | "asked";

/** What one column was taken for, and why. */
export interface ColumnRead {
  readonly column: string;
  readonly heading: string;
  /** null: not recognised; its cells go to the sealed store */
  readonly meaning: Meaning | null;
  /** unit of the column's bare numbers: "kg", "g", "lb", "min", "h", …; null where none applies */
  readonly unit: string | null;
  /** where that unit was found */
  readonly unitFrom: "heading" | "units-row" | "cells" | "site" | null;
  /** "." or "," for a column of numbers once its cells decided it */
  readonly decimalMark: "." | "," | null;
  readonly sure: Sure;
  /** why, as a code for the words room: "heading-known", "heading-part", "values-look-like-dates", "answered", … */
  readonly why: string;
}

/** One table found in a sheet. */
export interface TableRead {
  readonly sheet: string;
  readonly headingRow: number;
  readonly columns: readonly ColumnRead[];
  /** the order in which the file writes its dates, once its cells decided it */
  readonly dayOrder: "dmy" | "mdy" | "ymd" | null;
  /** true where a person left it out: its rows are set aside */
  readonly leftOut?: boolean;
}

/** A question that concerns a whole file or column, asked once. */
export interface FileQuestion {
  readonly code:
    | "day-order"
    | "column-meaning"
    | "column-unit"
    | "decimal-mark"
    | "period"
    | "no-table"
    | "day-of-sheet"
    | "clock-of-log"
    | "years-of-log";
  readonly sheet: string;
  readonly column: string | null;
  readonly choices: readonly string[];
}

/** A cell that a batch was read from: the raw text is kept for good. */
export interface CellRead {
  readonly column: string;
  readonly meaning: Meaning;
  readonly text: string;
}

/** A cell that may name a person or says something we do not read: it goes to the sealed store. */
export interface SealedCell {
  readonly column: string;
  readonly heading: string;
  readonly text: string;
}

/** One row of a file with its one fate. */
export interface RowRead<Cells = readonly CellRead[]> {
  readonly sheet: string;
  readonly row: number;
  readonly fate: Fate;
  readonly reasons: readonly Problem[];
  /** site code or name as the row gives it, in a file with a site column */
  readonly site: string | null;
  /** the day of its load or of its fuel; null where it has none that counts */
  readonly day: string | null;
  /** the batch that a counted row describes; a held row may have one with what could be read */
  readonly batch: BatchWritten | null;
  /** true for a row that only brings the dried weight of a load written elsewhere */
  readonly driedOnly: boolean;
  /** the row whose batch this one counts with: their loads were weighed together */
  readonly countsWith?: { readonly sheet: string; readonly row: number };
  readonly fuel: readonly FuelWritten[];
  /** what stands in the columns that are read */
  readonly cells: Cells;
  readonly sealed: readonly SealedCell[];
}

/** A row that still stands on its grid: its cells are put together for whoever goes through them. */
export type RowOnGrid = RowRead<Iterable<CellRead>>;

/** Fuel with the day of the row that says it. */
export interface FuelOn extends FuelWritten {
  readonly day: string;
}

/** What a row says of fuel, on its day. */
export function fuelOn({ day, fuel }: Pick<RowRead, "day" | "fuel">): FuelOn[] {
  return day === null ? [] : fuel.map((said) => ({ day, ...said }));
}

/** A total that the log itself states, beside what its rows add up to. */
export interface TotalCheck {
  readonly at: Place;
  readonly meaning: Meaning;
  readonly written: number;
  readonly read: number;
}

/** Everything that was understood of one file. Counts add up to the rows by construction. */
export interface Reading<Row = RowRead> {
  readonly format: "delimited" | "xlsx";
  readonly tables: readonly TableRead[];
  readonly questions: readonly FileQuestion[];
  readonly rows: readonly Row[];
  readonly totals: readonly TotalCheck[];
  /** remarks on the file: "read as Windows-1252", "hidden sheet left out", … as codes with their detail */
  readonly notes: readonly { readonly code: string; readonly detail: string }[];
  readonly counts: {
    readonly rows: number;
    readonly counted: number;
    readonly held: number;
    readonly setAside: number;
  };
  /** where somebody looks at the log before it counts */
  readonly look?: Look;
  /** of a part of a log: what it leaves for the next */
  readonly soFar?: SoFar;
}

/** A reading on the way from its grid to whoever asked for it. */
export type ReadingOnGrid = Reading<RowOnGrid>;

/** A file that cannot be read at all: one code, one sentence in the words room. */
export interface Unreadable {
  readonly refused:
    | "empty-file"
    | "too-large"
    | "too-many-rows"
    | "too-many-columns"
    | "cell-too-long"
    | "unpacks-too-large"
    | "damaged-archive"
    | "encrypted"
    | "macro-file"
    | "old-spreadsheet"
    | "open-document"
    | "picture"
    | "pdf"
    | "not-a-table"
    | "unclosed-quote"
    | "not-text"
    | "too-slow";
  /** where, or how much against how much; empty where it says nothing more */
  readonly detail: string;
}

/** What a site has declared that helps to read its logs. Everything is optional: nothing is assumed in its place. */
export interface Hints {
  /** month the log is said to be for, "YYYY-MM" */
  readonly period?: string;
  readonly massUnit?: "kg" | "g" | "lb";
  readonly timeUnit?: "min" | "h";
  readonly decimalMark?: "." | ",";
  readonly dayOrder?: "dmy" | "mdy" | "ymd";
  readonly fuel?: Fuel;
  readonly fuelUnit?: "kg" | "g" | "lb";
  /** what a load usually weighs fresh, where the site has declared it */
  readonly usualFreshKg?: number;
  /** kg per container, by the container's name in lower case without accents */
  readonly containers?: Readonly<Record<string, number>>;
  /** the site writes a day's tally, not a line a load */
  readonly tally?: boolean;
  /** no row can be of a later day: the day on which the log arrived */
  readonly lastDay?: string;
  /** everything that was answered, what is remembered among it */
  readonly answers?: Answers;
  readonly remembered?: Remembered;
}

/** Bounds of reading; settings of the installation. */
export interface Bounds {
  readonly bytes: number;
  readonly unpackedBytes: number;
  /** rows that hold a value */
  readonly rows: number;
  readonly columns: number;
  readonly cellCharacters: number;
  readonly sheets: number;
}
