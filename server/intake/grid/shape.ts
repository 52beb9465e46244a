/** What a cell of text looks like, without saying what it means. */
export type Shape = "blank" | "number" | "day" | "time" | "code" | "words" | "odd";

const LONGEST = 120;
const NUMBER =
  /^[-+~<>≈]?\s?(?:[$€£¥₹₦₵₱]|[A-Z]{2,3}\s)?\s?[-+]?(?:\d{1,3}(?:[ '’.,\u00a0\u202f]\d{3})+|\d+)(?:[.,]\d+)?(?:e[-+]?\d{1,3})?\s?(?:%|‰|[$€£¥]|[a-zµ°]{1,5}[²³]?)?$/i;
const DAY =
  /^\d{1,4}([-/. ])\d{1,2}\1\d{1,4}(?:[T ]+\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?:\s?[ap]m|z|[-+]\d{2}:?\d{2})?)?$/i;
const DAY_IN_WORDS =
  /^(?:\p{L}{2,9}\.?,? )?\d{1,2}[-. ]{1,2}\p{L}{3,10}\.?[-., ]{1,2}\d{2,4}$|^\p{L}{3,10}\.? \d{1,2},? \d{4}$/u;
const TIME = /^\d{1,2}(?::\d{2}){1,2}(?:[.,]\d+)?(?:\s?[ap]\.?m\.?)?$/i;
const CODE = /^(?:[\p{L}\p{N}_#@+*&.:/\\?=%$~()[\]-]+)$/u;
const WORDS = /^[\p{L}\p{N}(“¿¡#&*@/+'’.<>$€£-][\p{L}\p{M}\p{N} '’“”".,:;!?()[\]/&%+°º²³#@*=–—_$€£<>\u00a0-]*$/u;
const NOTHING = new Set(["-", "–", "—", "n/a", "na", "nan", "null", "none", "nil", "?", ".", "..", "...", "*"]);

/**
 * Shape of one cell. "odd" is what a cell seldom is: it carries marks that separate or enclose cells, or stands
 * beside its own spaces. Long cells are judged by their beginning, so the work is bounded.
 */
export function shapeOf(cell: string): Shape {
  const text = cell.trim();
  if (text === "" || NOTHING.has(text.toLowerCase())) return "blank";
  const part = text.length > LONGEST ? text.slice(0, LONGEST) : text;
  if (NUMBER.test(part)) return "number";
  if (DAY.test(part) || DAY_IN_WORDS.test(part)) return "day";
  if (TIME.test(part)) return "time";
  if (CODE.test(part)) return "code";
  if (WORDS.test(part) && !/["';|\t]$|^["';|]|[;|\t]/.test(part)) return "words";
  return "odd";
}

/** True for what values look like and headings seldom do. */
export function isValueShape(shape: Shape): boolean {
  return shape === "number" || shape === "day" || shape === "time";
}
