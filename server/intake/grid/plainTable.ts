import type { Bounds, Unreadable } from "#server/terms/row";
import { csvOf } from "./csv";
import { decode } from "./decode";
import { usualWidth } from "./dialect";
import { isRule, laidOut, withoutBorders } from "./layOut";
import { profileOf } from "./profile";
import { isUnreadable, readGrid } from "./readGrid";
import { type DelimitedText, delimitedText, eachTextRecord } from "./readText";
import { recognise, refuseText } from "./recognise";
import { type TextRecord, TextRecords } from "./records";
import { headingWithOther, refitted } from "./refit";
import { type Line, mainTable } from "./tables";

/**
 * The one table of a file as plain CSV: heading first (several heading rows joined by a space), then its records.
 *
 * What stands before and after the table is left out. An empty file is an empty table. Of a workbook the first sheet that
 * is not hidden is taken. Cells stay as they are written; only records of another width than the table are fitted to it.
 */
export function plainTable(bytes: Uint8Array, name: string, bounds: Bounds): { readonly csv: string } | Unreadable {
  if (bytes.length > bounds.bytes) return { refused: "too-large", detail: `${bytes.length} > ${bounds.bytes}` };
  const kind = recognise(bytes);
  if (kind === "archive") return sheetTable(bytes, name, bounds);
  if (kind !== "text") return emptyOr(kind);
  const { text } = decode(bytes);
  const refused = refuseText(text);
  return refused === null ? textTable(delimitedText(text)) : emptyOr(refused);
}

function textTable(delimited: DelimitedText): { readonly csv: string } {
  const { text, dialect } = delimited;
  const lines = linesOf(delimited);
  const cells = lines.map((line) => line.cells);
  const width = usualWidth(cells);
  const profile = profileOf(cells, width);
  const effort = { left: 20_000 + 20 * lines.length };
  const first = cells.findIndex((row) => row.length === width);
  const fitted = lines.map((line, i) => {
    if (line.cells.length === width) return line;
    const named = i === first - 1 ? headingWithOther(line.row, text, dialect, width) : null;
    return { ...line, cells: named ?? refitted(line.row, text, dialect, profile, effort) };
  });
  const { heading, body } = mainTable(fitted);
  // A heading is not like its columns: it stays as it is, unless it was one long cell and another delimiter fits.
  const named = heading.map((line) => (line.row.cells.length > width / 2 ? { ...line, cells: line.row.cells } : line));
  const rows = laidOut({ heading: named, body });
  return { csv: csvOf(dialect.delimiter === "|" ? withoutBorders(rows) : rows) };
}

/** Records in which something stands, with the number of empty ones before each. */
function linesOf(delimited: DelimitedText): Line<TextRecord>[] {
  const lines: Line<TextRecord>[] = [];
  let gap = 0;
  const records = new TextRecords((row) => {
    if (row.cells.every((cell) => cell.trim() === "")) gap++;
    else if (!isRule(row)) {
      lines.push({ row, cells: row.cells, gap });
      gap = 0;
    }
    return true;
  });
  eachTextRecord(delimited, records);
  return lines;
}

function sheetTable(bytes: Uint8Array, name: string, bounds: Bounds): { readonly csv: string } | Unreadable {
  const grid = readGrid(bytes, name, bounds);
  if (isUnreadable(grid)) return emptyOr(grid);
  const sheet = grid.sheets.find(({ hidden, rows }) => !hidden && rows.length > 0) ?? grid.sheets[0];
  const lines = (sheet?.rows ?? []).map((row, i, rows) => ({
    row,
    cells: row.cells.map((cell) => cell.text),
    gap: row.row - (rows[i - 1]?.row ?? 0) - 1,
  }));
  return { csv: csvOf(laidOut(mainTable(lines))) };
}

function emptyOr(refused: Unreadable): { readonly csv: string } | Unreadable {
  return refused.refused === "empty-file" ? { csv: "" } : refused;
}
