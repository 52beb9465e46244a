/** What somebody typed of one line of a picture, as it stands there. */
export interface TypedLine {
  /** the line of the picture, counted from 1 */
  readonly line: number;
  readonly cells: Readonly<Partial<Record<TypedColumn, string>>>;
}

export const TYPED_COLUMNS = ["day", "number", "pan", "fresh", "dried", "minutes", "fuel", "remarks"] as const;
export type TypedColumn = (typeof TYPED_COLUMNS)[number];

export const TYPED_MASS_UNITS = ["kg", "g", "lb"] as const;
export const TYPED_FUELS = ["LPG (kg)", "Firewood (kg)", "Charcoal (kg)", "Electricity (kWh)"] as const;

/** What was typed of a picture, with the two things that its headings say. */
export interface TypedSheet {
  readonly massUnit: (typeof TYPED_MASS_UNITS)[number];
  readonly fuel: (typeof TYPED_FUELS)[number];
  readonly lines: readonly TypedLine[];
}

/**
 * The log that was typed, as CSV (RFC 4180). Each row begins with the code of its picture and the line in it.
 *
 * Cells stand as typed; reading them is intake's. A column in which nothing was typed is left out, a line without
 * anything too. Null when nothing was typed at all.
 *
 * typedCsv("EV-7K2MPQ4R", one line 3 with day 14/03/2026 and fresh 5.2)
 * // Picture and line,Date,Fresh (kg)
 * // picture EV-7K2MPQ4R line 3,14/03/2026,5.2
 */
export function typedCsv(code: string, { massUnit, fuel, lines }: TypedSheet): string | null {
  const filled = filledLines(lines);
  if (filled.length === 0) return null;
  const headings: Readonly<Record<TypedColumn, string>> = {
    day: "Date",
    number: "Batch no",
    pan: "Pan",
    fresh: `Fresh (${massUnit})`,
    dried: `Dried (${massUnit})`,
    minutes: "Minutes",
    fuel,
    remarks: "Remarks",
  };
  const columns = TYPED_COLUMNS.filter((column) => filled.some((line) => written(line, column) !== ""));
  const rows = filled.map((line) => [
    `picture ${code} line ${line.line}`,
    ...columns.map((column) => written(line, column)),
  ]);
  return [["Picture and line", ...columns.map((column) => headings[column])], ...rows]
    .map((row) => `${row.map(quoted).join(",")}\r\n`)
    .join("");
}

/** The lines in which something was typed: row n of the log, after its headings, is the n-th of these. */
export function filledLines(lines: readonly TypedLine[]): TypedLine[] {
  return lines.filter((line) => TYPED_COLUMNS.some((column) => written(line, column) !== ""));
}

/** A cell on one line, so that a row of the log is a line of its text. */
function written(line: TypedLine, column: TypedColumn): string {
  return (line.cells[column] ?? "").replaceAll(/\s+/g, " ").trim();
}

function quoted(text: string): string {
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
