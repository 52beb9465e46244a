import type { Method, Quantity, TestResult } from "#server/terms/batch";
import { plain } from "#server/terms/headings/plain";
import type { Column } from "../columns/column";
import { readNumber } from "../values/decimals";
import { METHODS } from "../values/words";
import type { Reasons } from "./reasons";
import type { RowAtHand, TableAtHand } from "./table";

/** The text of a column, trimmed and otherwise as written: "007" stays "007". Null when nothing is said. */
export function textAt(table: TableAtHand, row: RowAtHand, column: Column | undefined): string | null {
  if (column === undefined) return null;
  return table.read.text(column, row);
}

/** Passed, failed or not tested; null where the table has no such column or the word says neither. */
export function testAt(
  table: TableAtHand,
  row: RowAtHand,
  column: Column | undefined,
  reasons: Reasons,
): TestResult | null {
  return saidAt(row, column, table.read.test, reasons);
}

/** Yes or no; null where the table has no such column or the word says neither. */
export function yesAt(
  table: TableAtHand,
  row: RowAtHand,
  column: Column | undefined,
  reasons: Reasons,
): boolean | null {
  return saidAt(row, column, table.read.yes, reasons);
}

function saidAt<T>(
  row: RowAtHand,
  column: Column | undefined,
  read: (column: Column, row: RowAtHand) => T | null,
  reasons: Reasons,
): T | null {
  if (column === undefined) return null;
  const said = read(column, row);
  if (said === null) reasons.add("cell-not-read", column);
  return said;
}

/** What a meter showed, kept as a number; moisture as a share. */
export function readingAt(
  table: TableAtHand,
  row: RowAtHand,
  column: Column | undefined,
  reasons: Reasons,
): Quantity | null {
  if (column === undefined) return null;
  const read = table.read.meter(column, row);
  if (read !== "unread") return read;
  reasons.add("cell-not-read", column);
  return null;
}

/** The method that a cell names, or null; a word that we do not know is another method. */
export function methodAt(table: TableAtHand, row: RowAtHand, reasons: Reasons): Method | null {
  const column = table.byMeaning.method;
  const text = textAt(table, row, column);
  if (text === null || column === undefined) return null;
  const known = METHODS.get(plain(text));
  if (known === undefined) reasons.add("cell-not-read", column);
  return known ?? "other";
}

/** Loads that a row stands for: a whole number from 1 on. A cell that says something else is a reason to ask. */
export function loadsAt(table: TableAtHand, row: RowAtHand, reasons: Reasons): number | null {
  return countAt(table, row, table.byMeaning.loads, reasons, "loads-not-a-number");
}

/** A whole number from 1 on that a cell counts; null where there is none, or none that can be read. */
export function countAt(
  table: TableAtHand,
  row: RowAtHand,
  column: Column | undefined,
  reasons: Reasons,
  unread: "loads-not-a-number" | "cell-not-read" = "cell-not-read",
): number | null {
  const text = textAt(table, row, column);
  if (text === null || column === undefined) return null;
  const read = readNumber(text.replace(/\s*\p{L}+$/u, ""));
  const count = read.kind === "number" ? Number(read.exact) : Number.NaN;
  if (Number.isInteger(count) && count >= 1 && count <= 10_000) return count;
  reasons.add(unread, column);
  return null;
}
