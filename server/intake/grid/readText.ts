import type { Grid } from "#server/terms/grid";
import type { Bounds, Unreadable } from "#server/terms/row";
import { eachAlignedRecord } from "./aligned";
import { dialectOf } from "./dialect";
import { type Dialect, eachRecord, type QuoteOddities, recordsOf, splitText, type Taker } from "./records";
import { RowsOfText } from "./rowsOfText";

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

/** Hands every record of a text to `taker`, whichever way it is written. */
export function eachTextRecord({ text, dialect }: DelimitedText, taker: Taker): QuoteOddities {
  if (dialect.aligned === null) return splitText(text, dialect, taker);
  eachAlignedRecord(text, dialect.aligned, ({ cells, quoted, from, to }) => {
    for (const [column, cell] of cells.entries()) taker.cell(cell, 0, cell.length, column);
    return taker.record(cells.length, quoted, from, to);
  });
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
  const read = new RowsOfText(bounds, delimited.before);
  const oddities = eachTextRecord(delimited, read);
  if (read.refusal !== null) return read.refusal;
  if (read.rows.length === 0) return { refused: "empty-file", detail: "" };
  const notes = [...delimited.notes];
  if (read.isCutAt(delimited.text.length) && delimited.dialect.aligned === null)
    notes.push({ code: "last-row-cut-short", detail: String(read.number) });
  if (read.blanks > 0) notes.push({ code: "blank-rows", detail: String(read.blanks) });
  if (oddities.unclosed.length > 0) {
    const listed = oddities.unclosed.slice(0, MOST_LISTED).map((record) => record + delimited.before);
    notes.push({ code: "unclosed-quote-read-as-text", detail: [...new Set(listed)].join(", ") });
  }
  if (oddities.stray > 0) notes.push({ code: "stray-quotes-kept", detail: String(oddities.stray) });
  return { format: "delimited", sheets: [{ name: sheet, hidden: false, rows: read.rows }], notes };
}
