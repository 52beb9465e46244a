import type { Cell, GridRow } from "#server/terms/grid";
import { plain } from "#server/terms/headings/plain";
import { isDigit } from "../values/decimals";
import { AVERAGES, beginsWith, NOTHING_PRODUCED, TOTALS } from "../values/words";

const BEGINS_WITH_LETTER = /^\s*\p{L}/u;
const SPACE = 32;
const LETTERS_FROM = 65;
const ASCII = 127;
const FIRST_WORD = /^\p{L}+/u;
const BEGIN_TOTALS = new Set([...TOTALS, ...AVERAGES].map((words) => words.split(" ")[0] ?? ""));

/** A word for a total in one of the first three cells that say anything; "average" for a row that is no sum. */
export function totalWord(row: GridRow): "total" | "average" | null {
  let seen = 0;
  for (let index = 0; index < row.width; index++) {
    const cell = row.at(index);
    if (cell.kind === "blank") continue;
    if (++seen > 3) return null;
    const begins = cell.text.charCodeAt(0);
    if (begins > SPACE && begins < LETTERS_FROM) continue;
    const text = cell.text.trim();
    if (text.length <= 40 && BEGIN_TOTALS.has(firstWord(text))) {
      const words = plain(text);
      if (beginsWith(words, TOTALS)) return "total";
      if (beginsWith(words, AVERAGES)) return "average";
    }
  }
  return null;
}

/** The first word of a text, made plain; empty where it begins otherwise. */
function firstWord(text: string): string {
  let to = 0;
  while (isLatin(text.charCodeAt(to))) to++;
  // a word of other letters, or that goes on with them
  if (text.charCodeAt(to) > ASCII) return plain(FIRST_WORD.exec(text)?.[0] ?? "");
  if (isDigit(text.charCodeAt(to))) return ""; // "B12"
  return text.slice(0, to).toLowerCase();
}

function isLatin(code: number): boolean {
  return (code >= 65 && code <= 90) || (code >= 97 && code <= 122);
}

/** A cell that says that nothing was dried: "closed", "no work (rain)". */
export function saysNothingProduced(cells: readonly Cell[]): boolean {
  return cells.some(
    (cell) =>
      BEGINS_WITH_LETTER.test(cell.text) && cell.text.length <= 60 && beginsWith(plain(cell.text), NOTHING_PRODUCED),
  );
}
