import type { ColumnRead, Meaning, Reading, Sure, TableRead, TotalCheck } from "#server/terms/row";
import { counted } from "./days";
import { MEANING_WORDS, unitInWords } from "./meanings";

const WHY: Readonly<Record<string, string>> = {
  "heading-known": "the heading says so",
  "heading-part": "words of the heading say so",
  "heading-not-read": "it is known and not needed",
  "heading-unknown": "the heading is not known",
  "heading-unclear": "the heading can mean several things",
  "no-heading": "it has no heading",
  "columns-around": "the other columns leave nothing else",
  "values-look-like-dates": "its cells are dates",
  "values-look-like-times": "its cells are times of day",
  "values-look-like-numbers": "its cells are numbers",
  "values-look-like-names": "its cells are names, not numbers",
  values: "its cells leave nothing else",
  "meaning-twice": "another column claims the same",
  "meaning-taken": "another column holds it already",
  answered: "you said so",
};

const UNIT_FROM: Record<NonNullable<ColumnRead["unitFrom"]>, string> = {
  heading: "the heading says so",
  "units-row": "the row of units says so",
  cells: "its cells or your answer say so",
  site: "the site has declared it",
};

const SURE: Record<Sure, string> = { sure: "sure", likely: "likely, please check", asked: "needs your answer" };

/** How sure it is what a column holds; of one that is not read there is nothing to be sure of. */
export function sureInWords({ sure, meaning }: ColumnRead): string {
  return meaning === null && sure !== "asked" ? "not read" : SURE[sure];
}

/** What of a column an earlier log of the site settled, in words such as "as in your log of May". */
export interface FromBefore {
  readonly meaning: string | null;
  readonly unit: string | null;
}

/** What one column was taken for, why, and in which unit, as the rest of a sentence that begins with the column. */
export function columnInWords(
  { meaning, why, unit, unitFrom, decimalMark, sure }: ColumnRead,
  before: FromBefore = { meaning: null, unit: null },
): string {
  const because = before.meaning ?? WHY[why] ?? "its cells say so";
  if (sure === "asked") return `is not clear yet: ${because}.`;
  if (meaning === null) return `is not read: ${because}. Its cells are kept, sealed.`;
  const inUnit = unit === null ? "" : `, in ${unitInWords(unit)}`;
  const unitBecause = before.unit ?? (unitFrom === null ? null : UNIT_FROM[unitFrom]);
  const unitWhy = unitBecause === null || unitBecause === because ? "" : ` (${unitBecause})`;
  const mark = decimalMark === "," ? ", with decimal commas" : "";
  return `is ${MEANING_WORDS[meaning]}${inUnit}${unitWhy}${mark}; ${because}.`;
}

const ORDER: Record<NonNullable<TableRead["dayOrder"]>, string> = {
  dmy: "Dates are written day, month, year.",
  mdy: "Dates are written month, day, year.",
  ymd: "Dates are written year, month, day.",
};

export function dayOrderInWords(order: TableRead["dayOrder"]): string | null {
  return order === null ? null : ORDER[order];
}

/** A total of the log beside what its rows add up to. */
export function totalInWords(total: TotalCheck): string {
  const { at, meaning, written, read } = total;
  const unit = UNIT_OF_TOTAL[meaning] ?? "";
  const both = `Row ${at.row}: the log's own total of ${MEANING_WORDS[meaning]} is ${plain(written)}${unit}; its rows add up to ${plain(read)}${unit}.`;
  if (isSame(total)) return `${both} They agree.`;
  const rest = `They differ by ${plain(Math.abs(written - read))}${unit}`;
  return isRounded(total)
    ? `${both} ${rest}, which is how the total was rounded.`
    : `${both} ${rest}: look for a row that is missing, held or written twice.`;
}

/** So many totals are told one by one. */
const MOST_TOTALS = 20;

/** All totals in few sentences: those that differ, more than rounding makes them first, and how many agree. */
export function totalsInWords(totals: readonly TotalCheck[]): string[] {
  const differing = totals.filter((total) => !isSame(total));
  const inOrder = [...differing.filter((total) => !isRounded(total)), ...differing.filter(isRounded)];
  const more = inOrder.length - MOST_TOTALS;
  const told = [
    ...inOrder.slice(0, MOST_TOTALS).map(totalInWords),
    ...(more > 0 ? [`${counted(more, "more total differs", "more totals differ")}.`] : []),
  ];
  const agreeing = totals.filter(isSame);
  const [first, second] = agreeing;
  if (first === undefined) return told;
  return [
    ...told,
    second === undefined
      ? totalInWords(first)
      : `${agreeing.length} totals of the log agree with what its rows add up to.`,
  ];
}

function isSame({ written, read }: TotalCheck): boolean {
  return Math.abs(written - read) <= Math.abs(written) * 1e-6 + 1e-9;
}

/** Off by no more than half of the last digit that is written. */
function isRounded({ written, read }: TotalCheck): boolean {
  const places = /\.(\d+)$/.exec(String(written))?.[1]?.length ?? 0;
  return places > 0 && Math.abs(written - read) <= 0.5 * 10 ** -places * (1 + 1e-9);
}

const UNIT_OF_TOTAL: Partial<Record<Meaning, string>> = { fresh: " kg", dried: " kg", minutes: " minutes" };

function plain(value: number): string {
  return value.toLocaleString("en-GB", { maximumFractionDigits: 3 });
}

const NOTES: Readonly<Record<string, (detail: string) => string>> = {
  "read-as-utf-16": () => "The text was read as UTF-16.",
  "read-as-windows-1252": () => "The text was read as Windows-1252. Look whether accents came out right.",
  "damaged-characters": (detail) =>
    `${counted(Number(detail), "character was", "characters were")} damaged before the log came here.`,
  "zero-bytes-left-out": (detail) => `${counted(Number(detail), "empty byte was", "empty bytes were")} left out.`,
  "sep-line-left-out": () => "The first line only names the separator.",
  "whole-lines-unquoted": () => "Each line stood in quotation marks as a whole.",
  "blank-rows": (detail) => `${counted(Number(detail), "empty row was", "empty rows were")} passed over.`,
  "unclosed-quote-read-as-text": (detail) => `A quotation mark stands alone in row ${detail}; it was read as text.`,
  "stray-quotes-kept": (detail) =>
    `${counted(Number(detail), "quotation mark", "quotation marks")} inside cells ${detail === "1" ? "was" : "were"} kept.`,
  "dates-from-1904": () => "The workbook counts its days from 1904.",
  "hidden-sheet": (detail) => `The hidden sheet “${detail}” was not read.`,
  "sheet-turned": (detail) =>
    `The sheet has a load in each column; it was read with a load in each row, as “${detail}”.`,
  "tables-side-by-side": (detail) => `What stands beside the first table was read as a sheet of its own, “${detail}”.`,
  "hidden-rows": (detail) => `Hidden rows were read too (${detail}).`,
};

/** A remark on how the file was read; null for one that only programs care about. */
export function noteInWords({ code, detail }: Reading["notes"][number]): string | null {
  return NOTES[code]?.(detail) ?? null;
}
