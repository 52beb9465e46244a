/**
 * Scores the grid layer on a folder of polluted files and their clean versions (the layout of the Pollock benchmark):
 * FOLDER/csv/NAME beside FOLDER/clean/NAME, and a JSON file of weights in FOLDER or above it.
 *
 * npx tsx tests/bench/grid.ts FOLDER [how many of the files that fall short to list, 40 by default]
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { plainTable } from "#server/intake/grid/plainTable";
import { isUnreadable } from "#server/intake/grid/readGrid";
import { measuresOf } from "./gridScore";

const LABELS = [
  "success",
  ...["heading", "record", "cell"].flatMap((of) => ["precision", "recall", "F1"].map((m) => `${of} ${m}`)),
];
const BOUNDS = { bytes: 1e9, unpackedBytes: 1e9, rows: 1e7, columns: 16_384, cellCharacters: 1e7, sheets: 40 };

const [given, most = "40"] = process.argv.slice(2);
if (given === undefined) throw new Error("name the folder that holds csv/ and clean/");
const folder = existsSync(join(given, "polluted_files")) ? join(given, "polluted_files") : given;

function weightsBeside(): Record<string, number> {
  for (const place of [folder, join(folder, "..")]) {
    const name = readdirSync(place).find((file) => file.endsWith(".json"));
    if (name !== undefined) return JSON.parse(readFileSync(join(place, name), "utf8"));
  }
  return {};
}

const read = (csv: string): string[][] => parse(csv, { relax_column_count: true, bom: true, skip_empty_lines: true });

const scored = readdirSync(join(folder, "clean")).map((name) => {
  const table = plainTable(readFileSync(join(folder, "csv", name)), name, BOUNDS);
  const wanted = read(readFileSync(join(folder, "clean", name), "utf8"));
  const measures = isUnreadable(table) ? new Array<number>(10).fill(0) : measuresOf(wanted, read(table.csv));
  return { name, measures, sum: measures.reduce((sum, measure) => sum + measure, 0) };
});

for (const [i, label] of LABELS.entries()) {
  const mean = scored.reduce((sum, { measures }) => sum + measures[i]!, 0) / scored.length;
  console.log(`${label.padEnd(18)} ${mean.toFixed(4)}`);
}
const short = scored.filter(({ sum }) => sum < 10 - 1e-9).sort((a, b) => a.sum - b.sum);
for (const { name, sum } of short.slice(0, Number(most))) console.log(`  ${sum.toFixed(3)}  ${name}`);
const weights = weightsBeside();
const all = scored.reduce((sum, { name }) => sum + (weights[name] ?? 0), 0);
const weighted = scored.reduce((sum, { name, sum: points }) => sum + (weights[name] ?? 0) * points, 0) / all;
const simple = scored.reduce((sum, { sum: points }) => sum + points, 0) / scored.length;
console.log(
  `${scored.length} files, ${short.length} fall short; simple ${simple.toFixed(4)}, weighted ${weighted.toFixed(4)}`,
);
