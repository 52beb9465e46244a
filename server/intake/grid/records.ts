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
  /** columns of a text whose cells stand under each other, filled up with spaces; null for delimited text */
  readonly aligned: readonly Segment[] | null;
}

/** One record: its cells as text, and where it stands in the text (its record end not included). */
export interface TextRecord {
  readonly cells: readonly string[];
  /** indexes of the cells that stood in quotes */
  readonly quoted: readonly number[];
  readonly from: number;
  readonly to: number;
}

/** What was odd about the quotes of a text. */
export interface QuoteOddities {
  /** records, from 1, in which an opening quote was never closed and was read as text */
  readonly unclosed: number[];
  /** quotes in the middle of quoted cells that were neither doubled nor escaped */
  stray: number;
}

const NONE: readonly number[] = [];
const LF = 10;
const CR = 13;
const SPACE = 32;

/**
 * Splits a text into records and hands each to `take`, in order; stops when `take` answers false.
 *
 * Records end at CR, LF or CRLF, in any mix. A quote opens only where a cell begins (spaces before it are allowed) and
 * closes only where a cell ends; others are kept as text. Two signs tell that an opening quote is text itself: a further
 * quote that opens a cell stands before any that closes one, or whole records would vanish between the two quotes. So an
 * unclosed quote never swallows what follows. Re-reading is bounded, so the work is linear in the text.
 * RFC 4180, section 2, is the definition for texts without such oddities.
 */
export function eachRecord(text: string, dialect: Dialect, take: (record: TextRecord) => boolean): QuoteOddities {
  const { delimiter, width } = dialect;
  const length = text.length;
  const many = delimiter.length;
  const first = many === 0 ? -1 : delimiter.charCodeAt(0);
  const spaced = first !== SPACE && first !== 9;
  const quote = dialect.quote === "" ? -1 : dialect.quote.charCodeAt(0);
  const mark = dialect.escape === dialect.quote || dialect.escape === "" ? -1 : dialect.escape.charCodeAt(0);
  const doubled = dialect.quote + dialect.quote;
  const oddities: QuoteOddities = { unclosed: [], stray: 0 };
  let spare = 8 * length + 1000; // characters that may be read again
  let number = 0;
  let at = 0;

  const isDelimiter = (i: number) => text.charCodeAt(i) === first && (many === 1 || text.startsWith(delimiter, i));
  const isBreak = (i: number) => text.charCodeAt(i) === LF || text.charCodeAt(i) === CR;

  /** Where a cell ends that would end at `i`, after spaces; -1 when something else follows. */
  const endOfCell = (i: number): number => {
    let end = i;
    while (true) {
      if (end >= length || isBreak(end) || isDelimiter(end)) return end;
      if (!spaced || text.charCodeAt(end) !== SPACE) return -1;
      end++;
    }
  };

  const opensCell = (i: number): boolean => {
    let before = i;
    while (spaced && before > 0 && text.charCodeAt(before - 1) === SPACE) before--;
    if (before === 0 || isBreak(before - 1)) return true;
    if (many > 0 && text.startsWith(delimiter, i - many)) return true;
    return many > 0 && before >= many && text.startsWith(delimiter, before - many);
  };

  /** True when between `open` and `close` stand records of the usual width, which the quotes would turn into one cell. */
  const swallows = (open: number, close: number, before: number): boolean => {
    if (width < 2 || many === 0) return false;
    let cells = before + 1;
    let lines = 0;
    for (let i = open + 1; i <= close; i++) {
      if (i < length && !isBreak(i)) {
        if (isDelimiter(i)) cells++;
        continue;
      }
      if (i === close) break;
      if (cells !== width) return false;
      lines++;
      cells = 1;
      if (text.charCodeAt(i) === CR && text.charCodeAt(i + 1) === LF) i++;
    }
    return lines > 1 || (lines === 1 && width > 3 && cells > 1);
  };

  while (at < length) {
    const cells: string[] = [];
    let quoted: number[] | null = null;
    const from = at;
    let to = at;
    number++;
    for (let more = true; more; ) {
      let open = -1;
      if (quote !== -1 && spare > 0) {
        let i = at;
        while (spaced && text.charCodeAt(i) === SPACE) i++;
        if (text.charCodeAt(i) === quote) open = i;
      }
      let end = -1;
      if (open !== -1) {
        let i = open + 1;
        let broken = false;
        let changed = false;
        let stray = 0;
        let lastPair = -1; // a doubled quote where a cell could end: the first of the two may belong to the text
        for (; i < length; i++) {
          const c = text.charCodeAt(i);
          if (c === mark) {
            const next = text.charCodeAt(i + 1);
            if (next === quote || next === mark) {
              changed = true;
              i++;
            }
            continue;
          }
          if (c === LF || c === CR) broken = true;
          if (c !== quote) continue;
          end = endOfCell(i + 1);
          if (end !== -1) break;
          if (text.charCodeAt(i + 1) === quote) {
            changed = true;
            i++;
            if (!broken && endOfCell(i + 1) !== -1) lastPair = i;
            continue;
          }
          if (opensCell(i) && i > open + 1) break;
          stray++;
        }
        if (end !== -1 && broken && swallows(open, i, cells.length)) end = -1;
        if (end === -1 && lastPair !== -1) {
          spare -= i - open;
          i = lastPair;
          end = endOfCell(i + 1);
          stray++;
        }
        if (end === -1) {
          spare -= i - open;
          oddities.unclosed.push(number);
        } else {
          oddities.stray += stray;
          quoted ??= [];
          quoted.push(cells.length);
          const inner = text.slice(open + 1, i);
          cells.push(changed ? unescaped(inner, dialect.quote, doubled, mark === -1 ? "" : dialect.escape) : inner);
        }
      }
      if (end === -1) {
        let i = at;
        for (; i < length; i++) {
          const c = text.charCodeAt(i);
          if (c === LF || c === CR) break;
          if (c === first && (many === 1 || text.startsWith(delimiter, i))) break;
        }
        cells.push(text.slice(at, i));
        end = i;
      }
      more = end < length && !isBreak(end);
      to = end;
      at = more ? end + many : end;
    }
    if (text.charCodeAt(at) === CR && text.charCodeAt(at + 1) === LF) at += 2;
    else at++;
    if (!take({ cells, quoted: quoted ?? NONE, from, to })) break;
  }
  return oddities;
}

function unescaped(inner: string, quote: string, doubled: string, mark: string): string {
  const once = inner.replaceAll(doubled, quote);
  if (mark === "") return once;
  let text = "";
  for (let i = 0; i < once.length; i++) {
    if (once[i] === mark && (once[i + 1] === quote || once[i + 1] === mark)) i++;
    text += once[i];
  }
  return text;
}

/** All records of a text, for texts that are known to be short. */
export function recordsOf(text: string, dialect: Dialect, most = Number.POSITIVE_INFINITY): TextRecord[] {
  const records: TextRecord[] = [];
  eachRecord(text, dialect, (record) => records.push(record) < most);
  return records;
}
