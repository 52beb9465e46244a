import { alignedColumns, alignedRecords, runsOfSpaces } from "./aligned";
import { possibleDelimiters, trust } from "./candidates";
import { type Dialect, recordsOf, type TextRecord } from "./records";
import { isValueShape, type Shape, shapeOf } from "./shape";

/** How much of a text is looked at to tell its dialect. */
const SAMPLE_CHARACTERS = 60_000;
const SAMPLE_LINES = 200;
const JUDGED_RECORDS = 60;
const JUDGED_CELLS = 200;
const ALIGNED_TRUST = 0.95;
/** what one column has to be beaten by */
const ONE_COLUMN = 0.3;

/**
 * How a text is written: delimiter, quote, escape and the usual number of cells.
 *
 * Every possible delimiter and quote is tried on the beginning of the text. A good one gives records of one width with
 * cells that look like something (a number, a day, a time, a code, words), alike down each column, and leaves no
 * delimiters or quotes inside them. `score` is between 0 and 1, for comparison with other ways to read the text.
 */
export function dialectOf(text: string): Dialect & { readonly score: number } {
  const sample = sampleOf(text);
  const lines = sample
    .split(/\r\n|\r|\n/)
    .filter((line) => line.trim() !== "")
    .slice(0, SAMPLE_LINES);
  let best: Dialect & { score: number } = {
    delimiter: "",
    quote: '"',
    escape: '"',
    width: 1,
    aligned: null,
    score: ONE_COLUMN * shapeScore(lines.map((line) => [line])),
  };
  for (const delimiter of possibleDelimiters(lines)) {
    for (const quote of quotesBeside(sample, delimiter)) {
      const dialect = { delimiter, quote, escape: quote, width: 0, aligned: null };
      const judged = judge(recordsOf(sample, dialect, SAMPLE_LINES));
      const score = judged.score * trust(delimiter, lines, judged.values);
      if (score > best.score + 1e-9) best = { ...dialect, width: judged.width, score };
    }
  }
  for (const aligned of [alignedColumns(lines), runsOfSpaces(lines)]) {
    if (aligned === null) continue;
    const judged = judge(alignedRecords(lines.join("\n"), aligned));
    const score = judged.score * (aligned.length > 0 ? ALIGNED_TRUST : trust(" ", lines, judged.values));
    if (score > best.score) best = { delimiter: " ", quote: "", escape: "", width: judged.width, aligned, score };
  }
  if (best.aligned !== null) return best;
  return { ...best, escape: escapeIn(text, best.quote, best.delimiter) };
}

/** The beginning of a text, up to the end of a line where there is one. */
function sampleOf(text: string): string {
  if (text.length <= SAMPLE_CHARACTERS) return text;
  const part = text.slice(0, SAMPLE_CHARACTERS);
  const end = Math.max(part.lastIndexOf("\n"), part.lastIndexOf("\r"));
  return end > SAMPLE_CHARACTERS / 4 ? part.slice(0, end + 1) : part;
}

/** The double quote always; the single quote where cells begin and end with it. */
function quotesBeside(sample: string, delimiter: string): string[] {
  const begins = count(sample, `${delimiter}'`) + count(sample, "\n'");
  const ends = count(sample, `'${delimiter}`) + count(sample, "'\n");
  return begins > 0 && ends > 0 ? ['"', "'"] : ['"'];
}

function count(text: string, part: string): number {
  let found = 0;
  for (let i = text.indexOf(part); i !== -1; i = text.indexOf(part, i + part.length)) found++;
  return found;
}

/** How well records agree in width and how much their cells look like cells. */
function judge(records: readonly TextRecord[]): { score: number; width: number; values: boolean } {
  const rows = records.map((record) => record.cells).filter((cells) => cells.length > 1 || cells[0]?.trim() !== "");
  const width = usualWidth(rows);
  if (width < 2) return { score: 0, width: 1, values: false };
  let fit = 0;
  const inBlock = (i: number) => rows[i]?.length === rows[i - 1]?.length && rows[i]?.length === rows[i + 1]?.length;
  for (const [i, row] of rows.entries()) {
    if (row.length === width) fit++;
    else if (row.length > 1 && (inBlock(i - 1) || inBlock(i) || inBlock(i + 1))) fit += 0.85;
    else if (row.length > 1) fit += 0.4 * (Math.min(row.length, width) / Math.max(row.length, width));
    else fit += 0.2;
  }
  const usual = rows.filter((row) => row.length === width);
  const agreement = (fit / rows.length) ** 1.5;
  const cells = usual.slice(0, JUDGED_RECORDS).flat();
  const values = cells.filter((cell) => isValueShape(shapeOf(cell))).length > cells.length / (2 * width);
  return { score: agreement * (1 - 1 / (width + 0.5)) * shapeScore(usual), width, values };
}

/** The width that accounts for most cells of most rows. */
export function usualWidth(rows: readonly (readonly string[])[]): number {
  const counts = new Map<number, number>();
  for (const row of rows) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
  let best = 1;
  let most = 0;
  for (const [width, times] of counts) {
    const weight = times * (1 - 1 / width);
    if (weight > most || (weight === most && width > best)) [best, most] = [width, weight];
  }
  return best;
}

const WORTH: Record<Shape, number> = { number: 1, day: 1, time: 1, code: 0.9, words: 0.85, blank: 0.7, odd: 0.1 };

/** Mean worth of the cells, less where a column's cells look unlike each other or a column is empty throughout. */
function shapeScore(rows: readonly (readonly string[])[]): number {
  const judged = rows.slice(0, JUDGED_RECORDS);
  const columns = Math.min(judged[0]?.length ?? 0, JUDGED_CELLS);
  if (columns === 0) return 0;
  let total = 0;
  for (let column = 0; column < columns; column++) {
    const shapes = new Map<Shape, number>();
    let worth = 0;
    for (const row of judged) {
      const cell = row[column] ?? "";
      const shape = shapeOf(cell);
      const beside = cell !== cell.trim() && cell.trim() !== "" ? 0.75 : 1;
      shapes.set(shape, (shapes.get(shape) ?? 0) + 1);
      worth += WORTH[shape] * beside;
    }
    const blank = shapes.get("blank") ?? 0;
    if (blank === judged.length) {
      total += 0.2 * judged.length;
      continue;
    }
    shapes.delete("blank");
    const alike = Math.max(...shapes.values()) / (judged.length - blank);
    total += worth * (0.7 + 0.3 * alike);
  }
  return total / (columns * judged.length);
}

/** Characters that programs put before a quote that belongs to the text. */
const ESCAPES = ["\\", "\0", "^", "~"];

/** The escape in use: a mark that stands before quotes inside cells, in a text that never doubles them there. */
function escapeIn(text: string, quote: string, delimiter: string): string {
  for (const mark of ESCAPES) {
    if (mark === delimiter) continue;
    const pair = mark + quote;
    let inside = 0;
    for (let i = text.indexOf(pair); i !== -1 && inside < 3; i = text.indexOf(pair, i + 2)) {
      const next = text.charAt(i + 2);
      if (next !== "" && next !== "\n" && next !== "\r" && next !== quote && !text.startsWith(delimiter || "\n", i + 2))
        inside++;
    }
    if (inside === 0) continue;
    if (mark === "\0" || count(text, quote + quote) <= count(text, pair)) return mark;
  }
  return quote;
}
