import { canonical, plus } from "./exact";

export type Mark = "." | ",";

/**
 * What a text says as a number.
 *
 * `shows` is the decimal mark that this text proves on its own; "either" can be read with both marks
 * ("3.500" is 3.5 or 3500); "doubtful" needs a person's word ("~12", "1O"); "none" is no number.
 */
export type NumberRead =
  | { readonly kind: "number"; readonly exact: string; readonly shows: Mark | null }
  | { readonly kind: "either"; readonly point: string; readonly comma: string }
  | { readonly kind: "doubtful"; readonly exact: string }
  | { readonly kind: "none" };

/** No number, day or duration is written with more characters; longer texts are not even looked at. */
export const LONGEST_VALUE = 60;

const NONE: NumberRead = { kind: "none" };
const SPACES = /[\u00a0\u2009\u202f\u2007]/g;
const DIGITS = /[\u0660-\u0669\u06f0-\u06f9\uff10-\uff19]/g;
const SIMPLE = /^-?\d{1,15}$/;
const SEPARATED = /^([-+]?)(\d*)([.,])(\d*)$/;
const FRACTIONS: Readonly<Record<string, string>> = {
  "½": "0.5",
  "¼": "0.25",
  "¾": "0.75",
  "1/2": "0.5",
  "1/4": "0.25",
  "3/4": "0.75",
  "1/8": "0.125",
};

/** A digit from 0 to 9, by its character code. */
export function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

/** Digits of any script as 0–9, spaces of any width as one kind, signs and Arabic separators as they are elsewhere. */
export function plainDigits(text: string): string {
  if (/^[ -~]*$/.test(text)) return text.trim();
  return text
    .replace(SPACES, " ")
    .replace(DIGITS, (digit) => {
      const code = digit.charCodeAt(0);
      return String(code - (code < 0x06f0 ? 0x0660 : code < 0xff10 ? 0x06f0 : 0xff10));
    })
    .replace(/\u066c/g, "")
    .replace(/[\u2212\u2013](?=\d)/g, "-")
    .replace(/[\u2018\u2019]/g, "'")
    .trim();
}

/**
 * Reads a number in any of the ways people write one; never guesses.
 *
 * readNumber("1.234,5") // 1234.5, shows ","      readNumber("3.500") // either 3.5 or 3500
 */
export function readNumber(raw: string): NumberRead {
  if (raw.length > LONGEST_VALUE) return NONE;
  const text = plainDigits(raw);
  if (SIMPLE.test(text)) return { kind: "number", exact: canonical(text), shows: null };
  if (text.includes("\u066b")) return arabic(text);
  const separated = SEPARATED.exec(text);
  if (separated) return oneSeparator(separated);
  if (/^[-+]?\d{1,3}([ ']\d{3})+([.,]\d*)?$/.test(text)) return grouped(text.replace(/[ ']/g, ""));
  if (/^[-+]?\d[\d.,]*$/.test(text)) return manySeparators(text);
  return unusual(text);
}

function arabic(text: string): NumberRead {
  const plain = text.replace("\u066b", ".");
  return /^-?\d+\.\d+$/.test(plain) ? { kind: "number", exact: canonical(plain), shows: null } : NONE;
}

function oneSeparator([, sign = "", before = "", mark, after = ""]: RegExpExecArray): NumberRead {
  if (before === "" && after === "") return NONE;
  const minus = sign === "-" ? "-" : "";
  const shows = mark === "," ? "," : ".";
  const fraction = canonical(`${minus}${before || "0"}.${after || "0"}`);
  if (after === "") return { kind: "number", exact: fraction, shows: null };
  const couldGroup = after.length === 3 && before.length >= 1 && before.length <= 3 && !before.startsWith("0");
  if (!couldGroup) return { kind: "number", exact: fraction, shows };
  const whole = canonical(`${minus}${before}${after}`);
  return shows === "."
    ? { kind: "either", point: fraction, comma: whole }
    : { kind: "either", point: whole, comma: fraction };
}

/** Groups are parted by spaces or apostrophes, so what separator is left is the decimal mark. */
function grouped(text: string): NumberRead {
  const shows = text.includes(",") ? "," : text.includes(".") ? "." : null;
  const exact = canonical(text.replace(",", ".").replace(/^\+/, "").replace(/\.$/, ""));
  return { kind: "number", exact, shows };
}

function manySeparators(text: string): NumberRead {
  const last = text.lastIndexOf(",") > text.lastIndexOf(".") ? "," : ".";
  const other = last === "," ? "." : ",";
  if (!text.includes(other)) {
    if (!/^[-+]?\d{1,3}([.,]\d{3})+$/.test(text)) return NONE;
    return { kind: "number", exact: canonical(text.replace(/[.,]/g, "")), shows: other };
  }
  const shape = last === "," ? /^[-+]?\d{1,3}(\.\d{3})+,\d+$/ : /^[-+]?\d{1,3}(,\d{3})+\.\d+$/;
  if (!shape.test(text)) return NONE;
  return { kind: "number", exact: canonical(text.replaceAll(other, "").replace(",", ".")), shows: last };
}

function unusual(text: string): NumberRead {
  const mixed = /^(\d*)\s*(½|¼|¾|(?<=\s|^)[13]\/[248])$/.exec(text);
  const part = mixed && FRACTIONS[mixed[2] ?? ""];
  if (mixed && part) return { kind: "number", exact: plus(mixed[1] ? canonical(mixed[1]) : "0", part), shows: null };
  const rough = /^(?:~|≈|±|\+\/-|<|>|ca\.?|env\.?|c\.)\s*(.+)$/i.exec(text) ?? /^(.+?)\s*(?:\?|\*|\+|!)+$/.exec(text);
  if (rough) return doubtful(readNumber(rough[1] ?? ""));
  if (/^[\dOoIl.,]+$/.test(text) && /\d/.test(text)) {
    return doubtful(readNumber(text.replace(/[Oo]/g, "0").replace(/[Il]/g, "1")));
  }
  const power = /^(-?\d+(?:[.,]\d+)?)[eE]\+?(\d)$/.exec(text);
  if (power)
    return doubtful({ kind: "number", exact: decimalTimesTen(power[1] ?? "0", Number(power[2])), shows: null });
  return NONE;
}

function decimalTimesTen(text: string, power: number): string {
  const [whole = "0", rest = ""] = text.replace(",", ".").split(".");
  const digits = rest.padEnd(power, "0");
  return canonical(`${whole}${digits.slice(0, power)}.${digits.slice(power)}0`);
}

function doubtful(read: NumberRead): NumberRead {
  return read.kind === "number" ? { kind: "doubtful", exact: read.exact } : NONE;
}
