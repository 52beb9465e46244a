const NEEDS_QUOTES = /[",\r\n]/;

/** Rows as CSV, each ended by CRLF. Source: RFC 4180, section 2. */
export function csvOf(rows: readonly (readonly string[])[]): string {
  let csv = "";
  for (const row of rows) {
    for (let column = 0; column < row.length; column++) {
      const cell = row[column]!;
      if (column > 0) csv += ",";
      // a lone empty cell would be an empty line, which readers pass over
      csv += NEEDS_QUOTES.test(cell) || (row.length === 1 && cell === "") ? `"${cell.replaceAll('"', '""')}"` : cell;
    }
    csv += "\r\n";
  }
  return csv;
}
