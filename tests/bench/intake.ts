/**
 * What the whole way costs from the bytes of a log to recognised, normalised and checked rows with their cells, beside
 * what others need only to split the same bytes in the same run: csv-parse for delimited text, hucre's stream of rows
 * for workbooks.
 * Processor time, which other work on the machine disturbs least: medians of 21 rounds, in which the one and the other
 * begin by turns, and of their ratios with the least and the most. Two rounds before them warm both, as the thread that
 * reads is kept warm. Goals: at most 1.6 × csv-parse and 2 × hucre.
 *
 * npx tsx tests/bench/intake.ts [rows of the CSV, 100000 by default] [rows of the workbook, 20000 by default]
 */
import { parse } from "csv-parse/sync";
import { streamXlsxRows, writeXlsx } from "hucre";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { handedOver } from "#server/intake/handedOver";
import { readLog } from "#server/intake/readLog";
import type { Hints } from "#server/terms/row";
import { csvOf, rowsOf } from "./gridRows";

const BOUNDS = { bytes: 1e9, unpackedBytes: 1e9, rows: 1e7, columns: 512, cellCharacters: 1e6, sheets: 40 };
const HINTS: Hints = { massUnit: "kg", timeUnit: "min", fuelUnit: "kg" };
const ROUNDS = 21;
const WARM = 2;

const sorted = (numbers: readonly number[]) => [...numbers].sort((a, b) => a - b);
const median = (numbers: readonly number[]) => sorted(numbers)[Math.floor(numbers.length / 2)]!;

/** Processor time of this process, all its threads, in ms. */
function spent(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

async function timed(times: number[], work: () => unknown): Promise<void> {
  const started = spent();
  await work();
  times.push(spent() - started);
}

/** So many rows leave the thread that reads at once. */
const AT_ONCE = 1000;

function read(bytes: Uint8Array, count: number, split: number[]): void {
  const started = spent();
  const grid = readGrid(bytes, "log.csv", BOUNDS);
  if (isUnreadable(grid)) throw new Error(grid.refused);
  split.push(spent() - started);
  const { counts, rows } = readLog(grid, HINTS);
  if (counts.rows !== count + 1 || counts.counted !== count) throw new Error(JSON.stringify(counts));
  for (let at = 0; at < rows.length; at += AT_ONCE) handedOver(rows.slice(at, at + AT_ONCE));
}

async function report(format: string, bytes: Uint8Array, count: number, yardstick: string, other: () => unknown) {
  const ours: number[] = [];
  const theirs: number[] = [];
  const split: number[] = [];
  for (let round = 0; round < WARM + ROUNDS; round++) {
    const both = [() => timed(theirs, other), () => timed(ours, () => read(bytes, count, split))];
    for (const one of round % 2 === 0 ? both : both.reverse()) await one();
  }
  for (const times of [ours, theirs, split]) times.splice(0, WARM);
  const ratios = sorted(ours.map((own, round) => own / theirs[round]!));
  const ratio = `${median(ratios).toFixed(2)} × ${yardstick} (${ratios[0]!.toFixed(2)} to ${ratios.at(-1)!.toFixed(2)})`;
  const [own, cells, beside] = [ours, split, theirs].map((times) => median(times).toFixed(0));
  console.log(`${format}: ${count} rows in ${own} ms (cells ${cells} ms) against ${beside} ms: ${ratio}`);
}

const inText = Number(process.argv[2] ?? 100_000);
const inBook = Number(process.argv[3] ?? 20_000);
const csv = csvOf(rowsOf(inText));
await report("csv", csv, inText, "csv-parse", () => parse(csv));
const xlsx = new Uint8Array(await writeXlsx({ sheets: [{ name: "June", rows: rowsOf(inBook) }] }));
await report("xlsx", xlsx, inBook, "hucre", async () => {
  for await (const _ of streamXlsxRows(xlsx));
});
console.log(`peak ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
