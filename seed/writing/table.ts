import type { Book, Encoding, SheetCell } from "../site";
import type { Line } from "./lines";

export interface Column {
  readonly heading: string;
  readonly says: (line: Line) => SheetCell;
}

export type Row = readonly SheetCell[];

/** A heading and a row for each line. */
export function tableOf(columns: readonly Column[], lines: readonly Line[]): Row[] {
  return [columns.map(({ heading }) => heading), ...rowsOf(columns, lines)];
}

export function rowsOf(columns: readonly Column[], lines: readonly Line[]): Row[] {
  return lines.map((line) => columns.map(({ says }) => says(line)));
}

/** Rows with one about a day without work put where its day belongs; `dayIn` tells the day of a row that has one. */
export function withDaysOff(
  lines: readonly Line[],
  rows: readonly Row[],
  off: readonly { day: string; row: Row }[],
): Row[] {
  const out: Row[] = [];
  const waiting = [...off].sort((a, b) => (a.day < b.day ? -1 : 1));
  lines.forEach((line, at) => {
    while (waiting[0] !== undefined && waiting[0].day < line.day.day) out.push(waiting.shift()?.row ?? []);
    out.push(rows[at] ?? []);
  });
  return [...out, ...waiting.map(({ row }) => row)];
}

/** Days without work in the order in which they came up, each with a word why. */
export function daysOff(
  { idle, holidays, chance }: Book,
  whys: readonly [string, ...string[]],
  holiday: string,
): { day: string; why: string }[] {
  return [...idle.map((day) => ({ day, why: chance.pick(whys) })), ...holidays.map((day) => ({ day, why: holiday }))];
}

/** Delimited text; cells that need quotes get them. Ends every line with `end`. */
export function delimited(rows: readonly Row[], delimiter: string, end = "\r\n"): string {
  return rows.map((row) => row.map((cell) => quoted(textOf(cell), delimiter)).join(delimiter) + end).join("");
}

function textOf(cell: SheetCell): string {
  if (cell === null) return "";
  return typeof cell === "object" ? cell.day : String(cell);
}

function quoted(text: string, delimiter: string): string {
  return text.includes(delimiter) || /["\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A number where the text is one, as somebody types it into a spreadsheet. */
export function typed(text: string): SheetCell {
  return /^\d+(?:\.\d+)?$/.test(text) ? Number(text) : text;
}

/** Text as bytes in one of the ways in which programs save it. */
export function encoded(text: string, encoding: Encoding): Uint8Array {
  if (encoding === "utf-8") return new TextEncoder().encode(text);
  if (encoding === "utf-8 with mark") return new TextEncoder().encode(`\ufeff${text}`);
  if (encoding === "utf-16") return Buffer.from(`\ufeff${text}`, "utf16le");
  return Buffer.from(text, "latin1"); // every letter that the logs use stands in the same place of Windows-1252
}
