import type { GridRow } from "#server/terms/grid";
import { type HeadingRead, readHeading } from "./headingWords";

/** One text a column out of headings that stand in several rows, groups above their parts. */
export function joinedHeadings(rows: readonly (readonly string[])[]): string[] {
  const [top = [], ...below] = rows;
  return below.reduce<string[]>(joinGroups, [...top]);
}

/** The headings that a row may hold. */
export function texts(row: GridRow | null): string[] {
  return row === null ? [] : row.cells.map((cell) => cell.text.trim());
}

/**
 * A group name holds for the columns to its right until the next one, as long as they say nothing on their own:
 * "Out" above "kg" is "Out kg", and "Gas (kg)" beside it stays what it is.
 */
export function joinGroups(above: readonly string[], below: readonly string[]): string[] {
  let group = "";
  return Array.from({ length: Math.max(above.length, below.length) }, (_, column) => {
    const top = above[column] ?? "";
    const part = below[column] ?? "";
    if (top !== "") group = top;
    if (part === "") return top;
    const joined = `${group} ${part}`.trim();
    const standsAlone = isKnown(readHeading(part)) && !isKnown(readHeading(joined));
    return standsAlone ? part : joined;
  });
}

function isKnown(read: HeadingRead | null): boolean {
  return read !== null && read.why === "heading-known" && read.meanings.length === 1;
}
