import { guarded } from "./formulaGuard";
import { type Column, checked, type Value } from "./table";

/** The first line of a table as CSV: the names of its columns. */
export function csvHead(columns: readonly Column[]): string {
  return record(columns.map(({ name }) => field(name)));
}

/**
 * Rows of a table as CSV: RFC 4180, lines end in CRLF, to be written as UTF-8 without a mark in front.
 *
 * Nothing known is an empty field, an empty text is a pair of quotation marks. Texts that a spreadsheet would run as a
 * formula get an apostrophe in front, in columns of texts alone; `readCsv` takes exactly that one off again.
 *
 * csvRows(two columns, [["a,b", "3.20"], [null, -11.5]]) // '"a,b",3.20\r\n,-11.5\r\n'
 */
export function csvRows(columns: readonly Column[], rows: readonly (readonly Value[])[]): string {
  return rows
    .map((row) => record(columns.map((column, at) => written(column, checked(column, row[at] ?? null)))))
    .join("");
}

function written({ kind }: Column, value: Value): string {
  if (value === null) return "";
  if (kind !== "text") return String(value);
  return value === "" ? '""' : field(guarded(String(value)));
}

function field(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function record(fields: readonly string[]): string {
  return `${fields.join(",")}\r\n`;
}
