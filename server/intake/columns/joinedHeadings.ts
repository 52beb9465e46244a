import type { GridRow } from "#server/terms/grid";
import { type HeadingRead, readHeading } from "./headingWords";

/** Tells what a heading means; each heading is looked up once. */
export type Reader = (text: string) => HeadingRead | null;

export function rememberedHeadings(): Reader {
  const seen = new Map<string, HeadingRead | null>();
  return (text) => {
    const known = seen.get(text);
    if (known !== undefined) return known;
    const read = readHeading(text);
    if (seen.size < 20_000) seen.set(text, read);
    return read;
  };
}

/** One text a column out of headings that stand in several rows, groups above their parts. */
export function joinedHeadings(rows: readonly (readonly string[])[]): string[] {
  return joined(rows, rememberedHeadings());
}

export function joined(rows: readonly (readonly string[])[], read: Reader): string[] {
  const [top = [], ...below] = rows;
  return below.reduce<string[]>((above, row) => joinGroups(above, row, read), [...top]);
}

/** The headings that a row may hold. */
export function texts(row: GridRow | null): string[] {
  return row === null ? [] : row.cells.map((cell) => cell.text.trim());
}

/**
 * A group name holds for the columns to its right until the next one, as long as they say nothing on their own:
 * "Out" above "kg" is "Out kg", and "Gas (kg)" beside it stays what it is.
 */
export function joinGroups(above: readonly string[], below: readonly string[], read: Reader): string[] {
  let group = "";
  return Array.from({ length: Math.max(above.length, below.length) }, (_, column) => {
    const top = above[column] ?? "";
    const part = below[column] ?? "";
    if (top !== "") group = top;
    if (part === "") return top;
    const joined = `${group} ${part}`.trim();
    const standsAlone = isKnown(read(part)) && !isKnown(read(joined));
    return standsAlone ? part : joined;
  });
}

function isKnown(read: HeadingRead | null): boolean {
  return read !== null && read.why === "heading-known" && read.meanings.length === 1;
}
