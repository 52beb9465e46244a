import type { Fuel } from "#server/terms/fuel";
import type { Cell, GridRow } from "#server/terms/grid";
import type { CellRead, Hints, Meaning } from "#server/terms/row";
import type { Column, ReadColumn } from "../columns/column";
import type { CellReaders } from "./cellReaders";
import type { DayRead, DayReader } from "./dayCells";

/** The column of each meaning that a table has; the first where it has several. */
export type ByMeaning = Readonly<Partial<Record<Meaning, Column>>>;

/** What the rows of one table share while they are read. */
export interface TableAtHand {
  readonly sheet: string;
  readonly columns: readonly Column[];
  readonly byMeaning: ByMeaning;
  /** columns that are read, and whose cells may be ditto marks */
  readonly lookedUp: readonly ReadColumn[];
  /** all other columns: they may name a person, or nobody knows what they say */
  readonly sealed: readonly Column[];
  readonly fuels: readonly Column[];
  /** columns whose question every row waits for */
  readonly holding: readonly Column[];
  /** columns that have a heading; cells beyond it in delimited text hint at a shifted row */
  readonly width: number;
  readonly delimited: boolean;
  /** the day that the sheet's name gives, or what stands above each of several tables; for one without a day column */
  readonly dayOfSheet: DayRead;
  /** a day that stands above the only table: it may be the day of its loads, or of the report */
  readonly dayAbove: string | null;
  /** the pan that the columns of this table are named after */
  readonly panOfTable: string | null;
  /** days are written once and hold for the rows below */
  readonly fillsDown: boolean;
  /** reads a day wherever it stands; those of the column of days are remembered in `read` */
  readonly days: DayReader;
  readonly read: CellReaders;
  /** remembers what fuel a word names */
  readonly fuelNamed: (word: string | null) => Fuel | null;
  readonly hints: Hints;
  /** rows that a person set aside: "sheet!row" */
  readonly setAside: ReadonlySet<string>;
  /** cells and rows that a person accepted as they are written; null where there is none */
  readonly accepted: ReadonlySet<string> | null;
  /** cells that a person has put in the place of unclear ones, by "sheet!column+row" */
  readonly puts: Readonly<Record<string, string>> | null;
}

/** A row whose cells have been looked up: answers put in, ditto marks replaced by the cell above. */
export interface RowAtHand {
  readonly row: number;
  readonly raw: GridRow;
  /** cells that stand in the place of its own, by the index of their column: answers, and the cell above for a ditto mark */
  readonly changed: readonly (Cell | undefined)[] | null;
  /** what it says in the columns that are read, as it stands there; nothing of a total */
  readonly said: Iterable<CellRead>;
  /** the row says in words that it is a total */
  readonly total: "total" | "average" | null;
  /** columns whose cell is a ditto mark */
  readonly dittos: readonly Column[];
}

/** The cell of a row, or what stands in its place. */
export function cellIn(row: RowAtHand, { index }: Column): Cell {
  return row.changed?.[index] ?? row.raw.at(index);
}

/** What is carried from row to row: the last day, site and fuel. */
export interface Carried {
  day: { readonly day: string; readonly minute: number | null } | null;
  site: string | null;
  fuelType: string | null;
  /** some row of the table took the day above */
  hasFilled: boolean;
}

export function newCarried(): Carried {
  return { day: null, site: null, fuelType: null, hasFilled: false };
}

/** True when a person has put something in the place of this cell; what was put is plain and its point is decimal. */
export function isPut(table: TableAtHand, row: RowAtHand, column: Column): boolean {
  return table.puts !== null && Object.hasOwn(table.puts, `${table.sheet}!${column.column}${row.row}`);
}
