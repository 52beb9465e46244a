import type { ProblemCode } from "#server/terms/problem";
import type { FileQuestion, Meaning, RowRead } from "#server/terms/row";
import { dayInWords } from "./days";
import { MEANING_WORDS, unitInWords } from "./meanings";

type Code = FileQuestion["code"];

/** Which reasons of rows an answer to a question about the whole file settles. */
export const SETTLED_BY: Readonly<Partial<Record<Code, readonly ProblemCode[]>>> = {
  "day-order": ["day-order-unclear"],
  "column-meaning": ["column-unclear"],
  "column-unit": ["mass-unit-unknown", "fuel-unit-unknown", "minutes-unclear"],
  "decimal-mark": ["mass-decimal-unclear"],
  period: ["day-not-a-date"],
  "day-of-sheet": ["day-missing"],
  "years-of-log": ["day-outside-period"],
};

/** A question about the whole file or one column, as it is put to a person. */
export function questionInWords({ code, sheet, column }: FileQuestion, heading: string): string {
  const named = heading === "" ? `Column ${column}` : `Column ${column}, “${heading}”,`;
  const asked: Record<Code, string> = {
    "day-order": "Which comes first in the dates of this log, the day or the month?",
    "column-meaning": `${named} can mean several things. What does it hold?`,
    "column-unit": `${named} does not say its unit. Which one is it?`,
    "decimal-mark": "Does the comma or point in numbers such as these stand before decimals or thousands?",
    period: "The dates do not say their year. Which month is the log for?",
    "no-table": "No table was found in this file.",
    "day-of-sheet": `The sheet “${sheet}” has no column of days. On which day were its loads dried?`,
    "clock-of-log": "Every time of this log lies between midnight and six. Are its hours counted from dawn?",
    "years-of-log": "The years of this log run more than 500 ahead. Are they of the Buddhist era?",
  };
  return asked[code];
}

/** What one answer means, with an example from the log where there is one. */
export function answerInWords(code: Code, choice: string, example: string | null): string {
  if (code === "day-order") return `${choice === "dmy" ? "The day" : "The month"}${exampleDay(choice, example)}`;
  if (code === "column-unit") return unitInWords(choice);
  if (code === "day-of-sheet") return dayInWords(choice);
  if (code === "clock-of-log")
    return choice === "dawn" ? "From dawn: 2:00 is eight in the morning" : "From midnight: 2:00 is two at night";
  if (code === "years-of-log")
    return choice === "buddhist" ? "Buddhist era: 2574 is 2031" : "No, the years are mistyped";
  if (code === "decimal-mark") {
    const mark = choice === "," ? "comma" : "point";
    return `The ${mark} stands before decimals${example === null ? "" : `: “${example}” is ${decimal(example, choice)}`}`;
  }
  return choice in MEANING_WORDS ? MEANING_WORDS[choice as Meaning] : choice;
}

/** The text of the first cell that a question is about. */
export function exampleFor(question: FileQuestion, rows: readonly RowRead[]): string | null {
  const codes = SETTLED_BY[question.code] ?? [];
  for (const { reasons } of rows) {
    const found = reasons.find(
      ({ code, at, text }) =>
        codes.includes(code) && text !== "" && (question.column === null || at.column === question.column),
    );
    if (found !== undefined) return found.text;
  }
  return null;
}

function exampleDay(order: string, example: string | null): string {
  const parts = /^\s*(\d{1,2})\D+(\d{1,2})\D+(\d{2,4})\s*$/.exec(example ?? "");
  if (parts === null) return " comes first";
  const [first, second] = [Number(parts[1]), Number(parts[2])];
  const [day, month] = order === "dmy" ? [first, second] : [second, first];
  if (month < 1 || month > 12) return " comes first";
  const year = `20${(parts[3] ?? "").slice(-2)}`;
  const pad = (number: number) => String(number).padStart(2, "0");
  return ` comes first: “${example?.trim()}” is ${dayInWords(`${year}-${pad(month)}-${pad(day)}`)}`;
}

function decimal(example: string, mark: string): string {
  const other = mark === "," ? "." : ",";
  return example.replaceAll(other, "").replace(mark, ".").trim();
}
