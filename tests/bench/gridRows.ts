/** Rows of an invented log, for measuring: one table of 14 columns with remarks in quotes, line ends inside them, and gaps. */
export const HEADING =
  "Date,Batch,Pan,Fresh kg,Dried kg,Start,End,Minutes,Fuel,Fuel kg,Moisture,Crisp,Site,Remarks".split(",");

const SITES = ["Old Jetty", "Salt Lane", "Upper Ferry", "Palmgrove", "Red Kiln"];

export function rowOf(i: number): (string | number)[] {
  const day = `2031-${String(1 + (i % 12)).padStart(2, "0")}-${String(1 + (i % 28)).padStart(2, "0")}`;
  const remark = i % 7 === 0 ? `sand changed, pan "${i % 5}"` : i % 11 === 0 ? "rain\nfrom noon" : "";
  const fresh = 3 + ((i * 37) % 97) / 50;
  const dried = i % 13 === 0 ? "n/a" : 1 + ((i * 17) % 53) / 100;
  const times = ["08:15", "09:05", 20 + (i % 9)];
  const beside = ["charcoal", 0.5, "", "pass", SITES[i % SITES.length]!, remark];
  return [day, `B${i}`, 1 + (i % 4), fresh, dried, ...times, ...beside];
}

export function rowsOf(count: number): (string | number)[][] {
  return [HEADING, ...Array.from({ length: count }, (_, i) => rowOf(i))];
}

/** The rows as delimited text, quoted only where need be. */
export function csvOf(rows: readonly (readonly (string | number)[])[]): Buffer {
  const quoted = (cell: string) => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
  return Buffer.from(rows.map((row) => `${row.map((cell) => quoted(String(cell))).join(",")}\n`).join(""));
}
