import type { GridRow } from "#server/terms/grid";
import { plain } from "#server/terms/headings/plain";
import type { Meaning } from "#server/terms/row";
import { findTables } from "./findTables";
import { readHeading } from "./headingWords";

/** Columns of one load in a row that holds several; `to` is not in it. */
export interface Group {
  readonly from: number;
  readonly to: number;
}

/**
 * Groups of columns that hold a load each in the same row, as under "Pan A" and "Pan B" or "Morning" and "Afternoon", and
 * the column of the day that they share. Null where there are none.
 *
 * A further group repeats the headings of the first, units and all: the same weight in kg and in crates is one load.
 */
export function groupsIn(rows: readonly GridRow[]): { readonly day: number; readonly groups: readonly Group[] } | null {
  const [table] = findTables({ name: "", hidden: false, rows });
  if (table === undefined) return null;
  const meanings = table.headings.map((heading) => only(readHeading(heading)?.meanings ?? []));
  const day = meanings.indexOf("day");
  const starts = table.headings.flatMap((_, at) => (meanings[at] === "fresh" ? [at] : []));
  const [first, second] = starts;
  if (first === undefined || second === undefined || day === -1 || day > first) return null;
  const top = table.headingAt.length === 2 ? rows[table.headingAt[0] ?? 0] : undefined;
  const below = rows[table.headingAt[table.headingAt.length - 1] ?? 0]?.cells.map(({ text }) => text) ?? [];
  const width = second - first;
  const groups = starts.map((start) => ({ from: start, to: start + width }));
  const isGroup = ({ from, to }: Group) =>
    meanings.slice(from, to).includes("dried") &&
    below.slice(from, to).every((text, at) => sameHeading(text, below[first + at] ?? "", top !== undefined));
  const named = top === undefined || starts.every((start) => top.at(start).text.trim() !== "");
  return named && starts.every((start, at) => start === first + at * width) && groups.every(isGroup)
    ? { day, groups }
    : null;
}

function only(meanings: readonly Meaning[]): Meaning | null {
  const [meaning, second] = meanings;
  return meaning !== undefined && second === undefined ? meaning : null;
}

/** The same words; in a heading of one row a number or letter must tell the groups apart: "In 1 (kg)" and "In 2 (kg)". */
function sameHeading(a: string, b: string, isNamedAbove: boolean): boolean {
  if (isNamedAbove) return plain(a) === plain(b);
  const [left, right] = [plain(a).split(" "), plain(b).split(" ")];
  const others = left.filter((word, at) => word !== right[at]);
  return (
    left.length === right.length && (a === b || (others.length === 1 && /^(?:\d{1,2}|\p{L})$/u.test(others[0] ?? "")))
  );
}
