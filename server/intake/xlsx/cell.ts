import { BLANK, type Cell } from "#server/terms/grid";
import { MOST_SHARED, SharedCell } from "../grid/sharedCell";
import { dayText, FROM_1904, serialOf, timeText } from "./serial";
import type { SharedTexts } from "./sharedTexts";
import type { FormatKind } from "./styles";

const NUMBER = /^\s*[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?\s*$/;

/** What a workbook says once for all its cells. */
export interface Book {
  readonly texts: SharedTexts;
  /** cells of the numbers met before, by format and as they are written */
  readonly numbers: Readonly<Record<FormatKind, Map<string, Cell>>>;
  readonly formats: readonly FormatKind[];
  readonly from1904: boolean;
}

/** A cell as its part of a sheet writes it, filled in tag by tag. `value` is null when no value stands there. */
export interface CellWritten {
  type: string | null;
  style: number;
  value: string | null;
  inline: string;
  /** null: no formula; "" when it is shared with another cell */
  formula: string | null;
}

/**
 * The cell that a sheet's part describes; a string says why the workbook is broken.
 *
 * A formula that was never worked out is an error cell that shows the formula: no value may be made of it. A number
 * becomes a day or a time by its number format alone; days of the 1904 system are moved to the 1900 system.
 */
export function cellOf(written: Readonly<CellWritten>, book: Book): Cell | string {
  const { type, value, formula } = written;
  if (type === "inlineStr") return textCell(written.inline);
  if (value === null) return formula === null ? BLANK : { text: `=${formula}`, kind: "error", value: null };
  if (type === "s") {
    return (
      (value.trim() === "" ? undefined : book.texts.at(Number(value))) ?? `shared text ${value.slice(0, 20)} is missing`
    );
  }
  if (type === "str") return textCell(value);
  if (type === "b")
    return { text: /^\s*(?:1|true)\s*$/.test(value) ? "TRUE" : "FALSE", kind: "true-false", value: null };
  if (type === "e") return { text: value, kind: "error", value: null };
  if (type === "d") {
    const serial = serialOf(value.trim());
    return serial === null ? textCell(value) : { text: value.trim().replace("T", " "), ...serial };
  }
  if (value.trim() === "") return formula === null ? BLANK : { text: `=${formula}`, kind: "error", value: null };
  return sharedNumber(value, book.formats[written.style] ?? "number", book);
}

/** A number that repeats is one cell; its number is odd, as those of texts are even. */
function sharedNumber(raw: string, format: FormatKind, { numbers, from1904 }: Book): Cell {
  const seen = numbers[format];
  const known = seen.get(raw);
  if (known !== undefined) return known;
  const { text, kind, value } = numberCell(raw, format, from1904);
  if (seen.size >= MOST_SHARED) return { text, kind, value };
  const count = numbers.number.size + numbers.day.size + numbers.time.size + numbers.elapsed.size;
  const cell = new SharedCell(text, kind, value, 2 * count + 1);
  seen.set(raw, cell);
  return cell;
}

export function textCell(text: string): Cell {
  if (text === "") return BLANK;
  return { text, kind: text.trim() === "" ? "blank" : "text", value: null };
}

function numberCell(raw: string, format: FormatKind, from1904: boolean): Cell {
  const value = NUMBER.test(raw) ? Number(raw) : Number.NaN;
  if (!Number.isFinite(value)) return { text: raw, kind: "text", value: null };
  if (format === "elapsed" && value >= 0) return { text: timeText(value), kind: "time", value };
  if (format === "time" && value >= 0) {
    const share = value - Math.floor(value);
    return { text: timeText(share), kind: "time", value: share };
  }
  if (format === "day") {
    if (value >= 0 && value < 1 && !from1904) return { text: timeText(value), kind: "time", value };
    const serial = from1904 ? value + FROM_1904 : value;
    const text = dayText(serial);
    if (text !== null) return { text, kind: "day", value: serial };
  }
  return { text: plainDecimal(value), kind: "number", value };
}

/** The shortest decimal that gives the number back, without an exponent. plainDecimal(1e-7) is "0.0000001". */
export function plainDecimal(value: number): string {
  const text = String(value);
  if (!text.includes("e")) return text;
  const found = /^(-?)(\d)(?:\.(\d+))?e([-+]\d+)$/.exec(text);
  if (found === null) return text;
  const [, sign, whole, fraction = "", exponent] = found;
  const digits = `${whole}${fraction}`;
  const point = 1 + Number(exponent);
  if (point <= 0) return `${sign}0.${"0".repeat(-point)}${digits}`;
  return sign + digits.padEnd(point, "0");
}
