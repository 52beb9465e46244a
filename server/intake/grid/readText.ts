import { BLANK, type Cell, type Grid, type GridRow } from "#server/terms/grid";
import type { Bounds, Unreadable } from "#server/terms/row";
import { eachAlignedRecord } from "./aligned";
import { dialectOf } from "./dialect";
import { type Dialect, eachRecord, type QuoteOddities, recordsOf, type TextRecord } from "./records";

type Note = Grid["notes"][number];

/** A text with the way it is written, after what is not part of its table was taken off. */
export interface DelimitedText {
  readonly text: string;
  readonly dialect: Dialect;
  /** records that stood before the text and were taken off */
  readonly before: number;
  readonly notes: readonly Note[];
}

const MOST_LISTED = 20;
const SEP_LINE = /^sep=(\S{1,3}|\t| )?(?:\r\n|\r|\n)/i;

/**
 * Tells how a text is written. A first line "sep=;" decides the delimiter and is taken off; zero bytes inside are taken
 * out; lines that are quoted as a whole are read from inside their quotes.
 */
export function delimitedText(given: string): DelimitedText {
  const notes: Note[] = [];
  let text = given;
  let before = 0;
  const zeros = text.includes("\0") ? text.split("\0").length - 1 : 0;
  const declared = SEP_LINE.exec(text);
  if (declared !== null) {
    text = text.slice(declared[0].length);
    before = 1;
    notes.push({ code: "sep-line-left-out", detail: declared[1] ?? "" });
  }
  let dialect: Dialect = dialectOf(text);
  if (zeros > 0 && dialect.escape !== "\0") {
    text = text.replaceAll("\0", "");
    dialect = dialectOf(text);
    notes.push({ code: "zero-bytes-left-out", detail: String(zeros) });
  }
  if (declared?.[1] !== undefined) {
    const records = recordsOf(text, { ...dialect, delimiter: declared[1], aligned: null }, 50);
    const width = Math.max(1, ...records.map((record) => record.cells.length));
    dialect = { ...dialect, delimiter: declared[1], quote: '"', width, aligned: null };
  }
  if (dialect.delimiter === "") {
    const inner = insideQuotes(text, dialect);
    if (inner !== null) {
      const innerDialect = dialectOf(inner);
      if (innerDialect.delimiter !== "") {
        text = inner;
        dialect = innerDialect;
        notes.push({ code: "whole-lines-unquoted", detail: "" });
      }
    }
  }
  notes.push({ code: dialect.aligned === null ? "delimiter" : "columns-by-position", detail: dialect.delimiter });
  return { text, dialect, before, notes };
}

/** The lines without the quotes around each of them; null unless nearly all are quoted as a whole. */
function insideQuotes(text: string, dialect: Dialect): string | null {
  if (!text.includes('"')) return null;
  let quoted = 0;
  const lines: string[] = [];
  const whole = { ...dialect, delimiter: "", quote: '"', escape: '"' };
  eachRecord(text, whole, ({ cells, from, to }) => {
    if (to - from > 2 && text.startsWith('"', from) && text.startsWith('"', to - 1)) quoted++;
    return lines.push(cells[0] ?? "") > 0;
  });
  return quoted >= lines.length * 0.9 ? lines.join("\n") : null;
}

/** Hands every record of a text to `take`, whichever way it is written. */
export function eachTextRecord({ text, dialect }: DelimitedText, take: (record: TextRecord) => boolean): QuoteOddities {
  if (dialect.aligned === null) return eachRecord(text, dialect, take);
  eachAlignedRecord(text, dialect.aligned, take);
  return { unclosed: [], stray: 0 };
}

/**
 * Reads delimited text into a grid with one sheet. Records are numbered from 1 as they stand in the file; a record
 * in which nothing stands keeps its number and is left out; a note says how many there are. Ragged records keep the cells that they have.
 *
 * Refuses more records with a value, more cells in a record or longer cells than the bounds allow.
 */
export function readText(given: string, sheet: string, bounds: Bounds): Grid | Unreadable {
  const delimited = delimitedText(given);
  const rows: GridRow[] = [];
  const notes = [...delimited.notes];
  let refusal: Unreadable | null = null;
  let number = delimited.before;
  let blanks = 0;
  let fewest = Number.POSITIVE_INFINITY;
  let isCut = false;
  const end = delimited.text.length;
  const cellOf = sharedCells();
  const oddities = eachTextRecord(delimited, ({ cells: texts, to }) => {
    number++;
    isCut = to === end && texts.length < fewest && rows.length > 1 && fewest < Number.POSITIVE_INFINITY;
    if (texts.length > bounds.columns) refusal = tooMuch("too-many-columns", number, texts.length, bounds.columns);
    let blank = true;
    const cells: Cell[] = new Array(texts.length);
    for (let i = 0; i < texts.length; i++) {
      const text = texts[i]!;
      if (text === "") {
        cells[i] = BLANK;
        continue;
      }
      if (text.length > bounds.cellCharacters) {
        const marks = marksIn(text);
        refusal =
          marks > bounds.columns
            ? tooMuch("too-many-columns", number, marks + 1, bounds.columns)
            : tooMuch("cell-too-long", number, text.length, bounds.cellCharacters);
      }
      const cell = cellOf(text, i);
      if (cell.kind === "text") blank = false;
      cells[i] = cell;
    }
    if (blank) blanks++;
    else {
      rows.push({ row: number, cells });
      if (texts.length < fewest) fewest = texts.length;
    }
    if (rows.length > bounds.rows) refusal = { refused: "too-many-rows", detail: `more than ${bounds.rows}` };
    return refusal === null;
  });
  if (refusal !== null) return refusal;
  if (rows.length === 0) return { refused: "empty-file", detail: "" };
  if (isCut && delimited.dialect.aligned === null) notes.push({ code: "last-row-cut-short", detail: String(number) });
  if (blanks > 0) notes.push({ code: "blank-rows", detail: String(blanks) });
  if (oddities.unclosed.length > 0) {
    const listed = oddities.unclosed.slice(0, MOST_LISTED).map((record) => record + delimited.before);
    notes.push({ code: "unclosed-quote-read-as-text", detail: [...new Set(listed)].join(", ") });
  }
  if (oddities.stray > 0) notes.push({ code: "stray-quotes-kept", detail: String(oddities.stray) });
  return { format: "delimited", sheets: [{ name: sheet, hidden: false, rows }], notes };
}

/** So many different texts of one column share their cells. */
const MOST_SHARED = 4000;

/** Cells by text and column: columns repeat few texts, most of all the one just above, and equal cells can be one. */
function sharedCells(): (text: string, column: number) => Cell {
  const columns: Map<string, Cell>[] = [];
  const above: Cell[] = [];
  return (text, column) => {
    const last = above[column];
    if (last !== undefined && last.text === text) return last;
    let seen = columns[column];
    if (seen === undefined) {
      seen = new Map();
      columns[column] = seen;
    }
    let cell = seen.get(text);
    if (cell === undefined) {
      cell = { text, kind: isBlank(text) ? "blank" : "text", value: null };
      if (seen.size < MOST_SHARED) seen.set(text, cell);
    }
    above[column] = cell;
    return cell;
  };
}

function isBlank(text: string): boolean {
  const first = text.charCodeAt(0);
  return (first <= 32 || first >= 0x80) && text.trim() === "";
}

/** Separators in a text that is made of little else: a row of nothing but empty cells has no delimiter to be told by. */
function marksIn(text: string): number {
  const mark = [",", ";", "\t", "|"].find((one) => text.endsWith(one)) ?? "";
  let marks = 0;
  for (let at = text.length - 1; mark !== "" && at >= 0 && text[at] === mark; at--) marks++;
  return marks;
}

function tooMuch(refused: Unreadable["refused"], row: number, found: number, allowed: number): Unreadable {
  return { refused, detail: `row ${row}: ${found} > ${allowed}` };
}
