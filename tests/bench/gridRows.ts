import { plusDays } from "#server/terms/days";

/**
 * Rows of an invented log, for measuring: one table of 14 columns with remarks in quotes, line ends inside them, and gaps.
 * Weights, times and readings differ from row to row as those of real loads do, so that nothing is gained by their repeating.
 */
export const HEADING =
  "Date,Batch,Pan,Fresh kg,Dried kg,Start,End,Minutes,Fuel,Fuel kg,Moisture,Crisp,Site,Remarks".split(",");

const SITES = ["Old Jetty", "Salt Lane", "Upper Ferry", "Palmgrove", "Red Kiln"];
const LOADS_A_DAY = 40;

export function rowOf(i: number): (string | number)[] {
  const day = plusDays("2025-01-01", Math.floor(i / LOADS_A_DAY));
  const fresh = 300 + drawn(i, 1, 350);
  // weighed to 5 g, between 28 and 36 parts of a hundred
  const dried = i % 13 === 0 ? "n/a" : Math.round((fresh * (280 + drawn(i, 2, 80))) / 500) / 200;
  const start = 360 + drawn(i, 3, 720);
  const minutes = 18 + drawn(i, 4, 30);
  const moisture = i % 10 === 0 ? (20 + drawn(i, 5, 40)) / 10 : "";
  const beside = ["charcoal", (30 + drawn(i, 6, 100)) / 100, moisture, i % 50 === 0 ? "fail" : "pass"];
  const times = [clock(start), clock(start + minutes), minutes];
  return [day, `B${i}`, 1 + (i % 4), fresh / 100, dried, ...times, ...beside, SITES[i % SITES.length]!, remark(i)];
}

function remark(i: number): string {
  if (i % 7 === 0) return `sand changed, pan "${i % 5}"`;
  if (i % 11 === 0) return "rain\nfrom noon";
  return i % 29 === 0 ? `hot sand ${150 + drawn(i, 7, 90)} °C` : "";
}

/** "08:05" */
function clock(minute: number): string {
  return `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
}

/** One of `of` whole numbers from 0 on, the same for the same row and column: no order shows. */
function drawn(row: number, column: number, of: number): number {
  let mixed = Math.imul(row + 1, 0x9e3779b1) ^ Math.imul(column, 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0xc2b2ae35);
  return ((mixed ^ (mixed >>> 13)) >>> 0) % of;
}

export function rowsOf(count: number): (string | number)[][] {
  return [HEADING, ...Array.from({ length: count }, (_, i) => rowOf(i))];
}

/** The rows as delimited text, quoted only where need be. */
export function csvOf(rows: readonly (readonly (string | number)[])[]): Buffer {
  const quoted = (cell: string) => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
  return Buffer.from(rows.map((row) => `${row.map((cell) => quoted(String(cell))).join(",")}\n`).join(""));
}
