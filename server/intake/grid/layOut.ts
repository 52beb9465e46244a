import { usualWidth } from "./dialect";
import type { Line, Table } from "./tables";

/**
 * A table as rows of one width, its heading first: several heading rows joined by a space, rows filled up with empty
 * cells. Only a row that holds more than the others stays wider: nothing is cut off.
 */
export function laidOut<Row>({ heading, body }: Table<Row>): string[][] {
  const names = heading.map((line) => line.cells);
  const rows = body.map((line) => line.cells);
  const usual = usualWidth([...names, ...rows]);
  const named = Math.max(0, ...names.map((row) => row.length));
  const beyond = named > 0 && rows.every((row) => row.slice(named).every((cell) => cell.trim() === ""));
  const width = beyond ? Math.min(named, usual) : usual;
  const fill = (row: readonly string[]) => {
    const filled = [...row];
    while (filled.length < width) filled.push("");
    while (filled.length > width && filled.at(-1)!.trim() === "") filled.pop();
    return filled;
  };
  const single = joined(names.map((row) => withoutSlip(fill(row), width)));
  return [...single, ...rows.map(fill)];
}

/** Lines drawn at the left and right of a table make columns in which nothing stands; what is inside is set off by spaces. */
export function withoutBorders(rows: readonly string[][]): string[][] {
  const bordered = rows.every((row) => row.length > 2 && row[0]!.trim() === "" && row.at(-1)!.trim() === "");
  return bordered ? rows.map((row) => row.slice(1, -1).map((cell) => cell.trim())) : [...rows];
}

/** A line drawn under a heading: "----", "|---|---|", "==== ====". */
export function isRule<Row>({ cells }: Pick<Line<Row>, "cells">): boolean {
  const drawn = cells.filter((cell) => cell.trim() !== "");
  return drawn.some((cell) => cell.trim().length > 2) && drawn.every((cell) => /^\s*[-=_+:*]{2,}\s*$/.test(cell));
}

/** A heading with one cell too many, and that one empty, has slipped. */
function withoutSlip(row: readonly string[], width: number): readonly string[] {
  const empty = row.findIndex((cell) => cell.trim() === "");
  return row.length === width + 1 && empty !== -1 ? row.toSpliced(empty, 1) : row;
}

/** One heading row out of several: what stands in each column, from top to bottom. */
function joined(heading: readonly (readonly string[])[]): string[][] {
  if (heading.length < 2) return heading.map((row) => [...row]);
  const width = Math.max(...heading.map((row) => row.length));
  const columns = Array.from({ length: width }, (_, column) => heading.map((row) => row[column] ?? ""));
  return [columns.map((parts) => parts.filter((part) => part.trim() !== "").join(" "))];
}
