import { QuoteMarks } from "./quotes";

/** Where a column of an aligned text stands, counted in characters; `to` is not in it. */
export interface Segment {
  readonly from: number;
  readonly to: number;
}

/** How a delimited text is written. */
export interface Dialect {
  /** what stands between cells, one or more characters; "" where every record is one cell */
  readonly delimiter: string;
  /** what encloses cells; "" where nothing does */
  readonly quote: string;
  /** what stands before a quote that belongs to the text; the quote itself where quotes are doubled */
  readonly escape: string;
  /** cells that most records have; 0 when not known */
  readonly width: number;
  /** columns of a text whose cells stand under each other, filled up with spaces; none where only runs of spaces divide them; null for delimited text */
  readonly aligned: readonly Segment[] | null;
}

/** One record: its cells, and where it stands in the text (its record end not included). */
export interface TextRecord {
  readonly cells: readonly string[];
  /** indexes of the cells that stood in quotes */
  readonly quoted: readonly number[];
  readonly from: number;
  readonly to: number;
}

/** Takes the cells of a text, one after the other from the left, and after those of each record its end. */
export interface Taker {
  /** What stands in a text from one place to another; in a text of its own where quotes had to be taken out. */
  cell(text: string, from: number, to: number, column: number): void;
  /** The record of the cells before, so many, and where it stands; false where no more are wanted. */
  record(width: number, quoted: readonly number[], from: number, to: number): boolean;
}

/** What was odd about the quotes of a text. */
export interface QuoteOddities {
  /** records, from 1, in which an opening quote was never closed and was read as text */
  readonly unclosed: readonly number[];
  /** quotes in the middle of quoted cells that were neither doubled nor escaped */
  readonly stray: number;
}

const NONE: readonly number[] = [];
const LF = 10;
const CR = 13;

/**
 * Splits a text into records and hands each to `taker`, in order; stops when it wants no more.
 *
 * Records end at CR, LF or CRLF, in any mix. A quote opens only where a cell begins (spaces before it are allowed) and
 * closes only where a cell ends; others are kept as text. Two signs tell that an opening quote is text itself: a further
 * quote that opens a cell stands before any that closes one, or whole records would vanish between the two quotes. So an
 * unclosed quote never swallows what follows. Re-reading is bounded, so the work is linear in the text.
 * RFC 4180, section 2, is the definition for texts without such oddities.
 */
export function splitText(text: string, dialect: Dialect, taker: Taker): QuoteOddities {
  const { delimiter } = dialect;
  const length = text.length;
  const many = delimiter.length;
  const first = many === 0 ? -1 : delimiter.charCodeAt(0);
  const quotes = new QuoteMarks(text, dialect);
  const unclosed: number[] = [];
  let number = 0;
  let at = 0;
  while (at < length) {
    let column = 0;
    let quoted: number[] | null = null;
    const from = at;
    number++;
    while (true) {
      const open = quotes.openingAt(at);
      let end = -1;
      if (open !== -1) {
        end = quotes.read(open, column);
        if (end === -1) unclosed.push(number);
        else {
          quoted ??= [];
          quoted.push(column);
          taker.cell(quotes.content, 0, quotes.content.length, column);
        }
      }
      if (end === -1) {
        for (end = at; end < length; end++) {
          const c = text.charCodeAt(end);
          if (c === LF || c === CR) break;
          if (c === first && (many === 1 || text.startsWith(delimiter, end))) break;
        }
        taker.cell(text, at, end, column);
      }
      column++;
      at = end;
      if (end >= length || text.charCodeAt(end) === LF || text.charCodeAt(end) === CR) break;
      at += many;
    }
    const to = at;
    at += text.charCodeAt(at) === CR && text.charCodeAt(at + 1) === LF ? 2 : 1;
    if (!taker.record(column, quoted ?? NONE, from, to)) break;
  }
  return { unclosed, stray: quotes.stray };
}

/** Makes records with texts for cells and hands each to `take`, until that answers false. */
export class TextRecords implements Taker {
  readonly #take: (record: TextRecord) => boolean;
  #cells: string[] = [];

  constructor(take: (record: TextRecord) => boolean) {
    this.#take = take;
  }

  cell(text: string, from: number, to: number): void {
    this.#cells.push(text.slice(from, to));
  }

  record(_width: number, quoted: readonly number[], from: number, to: number): boolean {
    const cells = this.#cells;
    this.#cells = [];
    return this.#take({ cells, quoted, from, to });
  }
}

/** Splits a text into records and hands each to `take`, in order; stops when `take` answers false. */
export function eachRecord(text: string, dialect: Dialect, take: (record: TextRecord) => boolean): QuoteOddities {
  return splitText(text, dialect, new TextRecords(take));
}

/** All records of a text, for texts that are known to be short. */
export function recordsOf(text: string, dialect: Dialect, most = Number.POSITIVE_INFINITY): TextRecord[] {
  const records: TextRecord[] = [];
  eachRecord(text, dialect, (record) => records.push(record) < most);
  return records;
}
