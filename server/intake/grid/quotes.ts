import type { Dialect } from "./records";

const LF = 10;
const CR = 13;
const SPACE = 32;
const TAB = 9;

/** Reads cells that stand in quotes, and tells quotes that enclose a cell from those that belong to its text. */
export class QuoteMarks {
  /** what stood between the quotes of the cell read last */
  content = "";
  /** quotes inside quoted cells that were neither doubled nor escaped */
  stray = 0;

  readonly #text: string;
  readonly #dialect: Dialect;
  readonly #first: number;
  readonly #many: number;
  readonly #quote: number;
  readonly #mark: number;
  readonly #spaced: boolean;
  /** characters that may still be read twice */
  #spare: number;

  constructor(text: string, dialect: Dialect) {
    const { delimiter, quote, escape: mark } = dialect;
    this.#text = text;
    this.#dialect = dialect;
    this.#many = delimiter.length;
    this.#first = delimiter === "" ? -1 : delimiter.charCodeAt(0);
    this.#quote = quote === "" ? -1 : quote.charCodeAt(0);
    this.#mark = mark === quote || mark === "" ? -1 : mark.charCodeAt(0);
    this.#spaced = this.#first !== SPACE && this.#first !== TAB;
    this.#spare = 8 * text.length + 1000;
  }

  /** Where the quote stands that opens the cell beginning at `at`, after spaces; -1 when none does. */
  openingAt(at: number): number {
    if (this.#quote === -1 || this.#spare <= 0) return -1;
    let i = at;
    while (this.#spaced && this.#text.charCodeAt(i) === SPACE) i++;
    return this.#text.charCodeAt(i) === this.#quote ? i : -1;
  }

  /** Reads the cell whose quote opens at `open`, after `before` cells; where it ends, or -1 when the quote is text. */
  read(open: number, before: number): number {
    const text = this.#text;
    let broken = false;
    let changed = false;
    let stray = 0;
    let lastPair = -1; // a doubled quote where a cell could end: the first of the two may belong to the text
    let end = -1;
    let i = open + 1;
    for (; i < text.length; i++) {
      const c = text.charCodeAt(i);
      if (c === this.#mark) {
        const next = text.charCodeAt(i + 1);
        if (next === this.#quote || next === this.#mark) {
          changed = true;
          i++;
        }
        continue;
      }
      if (c === LF || c === CR) broken = true;
      if (c !== this.#quote) continue;
      end = this.#endOfCell(i + 1);
      if (end !== -1) break;
      if (text.charCodeAt(i + 1) === this.#quote) {
        changed = true;
        i++;
        if (!broken && this.#endOfCell(i + 1) !== -1) lastPair = i;
        continue;
      }
      if (i > open + 1 && this.#opensCell(i)) break;
      stray++;
    }
    if (end !== -1 && broken && this.#swallows(open, i, before)) end = -1;
    if (end === -1) {
      this.#spare -= i - open;
      if (lastPair === -1) return -1;
      i = lastPair;
      end = this.#endOfCell(i + 1);
      stray++;
    }
    this.stray += stray;
    const inner = text.slice(open + 1, i);
    this.content = changed ? this.#unescaped(inner) : inner;
    return end;
  }

  #isBreak(i: number): boolean {
    const c = this.#text.charCodeAt(i);
    return c === LF || c === CR;
  }

  #isDelimiter(i: number): boolean {
    if (this.#text.charCodeAt(i) !== this.#first) return false;
    return this.#many === 1 || this.#text.startsWith(this.#dialect.delimiter, i);
  }

  /** Where a cell ends that would end at `i`, after spaces; -1 when something else follows. */
  #endOfCell(i: number): number {
    for (let end = i; ; end++) {
      if (end >= this.#text.length || this.#isBreak(end) || this.#isDelimiter(end)) return end;
      if (!this.#spaced || this.#text.charCodeAt(end) !== SPACE) return -1;
    }
  }

  #opensCell(i: number): boolean {
    let before = i;
    while (this.#spaced && before > 0 && this.#text.charCodeAt(before - 1) === SPACE) before--;
    if (before === 0 || this.#isBreak(before - 1)) return true;
    const endsWithDelimiter = (at: number) =>
      at >= this.#many && this.#text.startsWith(this.#dialect.delimiter, at - this.#many);
    return this.#many > 0 && (endsWithDelimiter(i) || endsWithDelimiter(before));
  }

  /** True when between the two quotes stand records of the usual width, which they would turn into one cell. */
  #swallows(open: number, close: number, before: number): boolean {
    const { width } = this.#dialect;
    if (width < 2 || this.#many === 0) return false;
    let cells = before + 1;
    let lines = 0;
    for (let i = open + 1; i < close; i++) {
      if (!this.#isBreak(i)) {
        if (this.#isDelimiter(i)) cells++;
        continue;
      }
      if (cells !== width) return false;
      lines++;
      cells = 1;
      if (this.#text.charCodeAt(i) === CR && this.#text.charCodeAt(i + 1) === LF) i++;
    }
    return lines > 1 || (lines === 1 && width > 3 && cells > 1);
  }

  #unescaped(inner: string): string {
    const { quote, escape: mark } = this.#dialect;
    const once = inner.split(quote + quote).join(quote); // millions of quotes take replaceAll seconds
    if (this.#mark === -1) return once;
    let text = "";
    for (let i = 0; i < once.length; i++) {
      if (once[i] === mark && (once[i + 1] === quote || once[i + 1] === mark)) i++;
      text += once[i];
    }
    return text;
  }
}
