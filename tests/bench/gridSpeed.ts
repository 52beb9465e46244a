/**
 * How long reading takes, beside what others need only to split the same bytes in the same run: csv-parse for delimited
 * text, hucre's stream of rows for workbooks. Processor time, medians of nine rounds, taken in turn. Peak memory is that
 * of this process.
 *
 * npx tsx tests/bench/gridSpeed.ts [rows, 10000 by default]
 */
import { parse } from "csv-parse/sync";
import { streamXlsxRows, writeXlsx } from "hucre";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { csvOf, rowsOf } from "./gridRows";

const BOUNDS = { bytes: 1e9, unpackedBytes: 1e9, rows: 1e7, columns: 512, cellCharacters: 1e6, sheets: 40 };
const ROUNDS = 9;
const median = (times: number[]) => times.sort((a, b) => a - b)[Math.floor(times.length / 2)]!;

async function timed(times: number[], work: () => unknown): Promise<void> {
  const started = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(started);
  times.push((user + system) / 1000);
}

function read(bytes: Uint8Array): void {
  const grid = readGrid(bytes, "log", BOUNDS);
  if (isUnreadable(grid) || grid.sheets[0]?.rows.length !== count + 1) throw new Error("rows are missing");
}

const count = Number(process.argv[2] ?? 10_000);
const rows = rowsOf(count);
const csv = csvOf(rows);
const xlsx = new Uint8Array(await writeXlsx({ sheets: [{ name: "June", rows }] }));

const ours = { csv: [] as number[], xlsx: [] as number[] };
const theirs = { csv: [] as number[], xlsx: [] as number[] };
for (let round = 0; round < ROUNDS; round++) {
  await timed(theirs.csv, () => parse(csv));
  await timed(ours.csv, () => read(csv));
  await timed(theirs.xlsx, async () => {
    for await (const _ of streamXlsxRows(xlsx));
  });
  await timed(ours.xlsx, () => read(xlsx));
}
for (const format of ["csv", "xlsx"] as const) {
  const [own, other] = [median(ours[format]), median(theirs[format])];
  const beside = format === "csv" ? "csv-parse" : "hucre";
  console.log(
    `${format}: ${count} rows in ${own.toFixed(0)} ms, ${(own / other).toFixed(2)} × ${beside} (${other.toFixed(0)} ms)`,
  );
}
console.log(`peak ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
