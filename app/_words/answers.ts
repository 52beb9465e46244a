import { type Answers, MEANINGS, type Remembered } from "#server/terms/row";
import { dayInWords } from "./days";
import { earlierLog } from "./likeBefore";
import { MEANING_WORDS, unitInWords } from "./meanings";

/** An answer that holds, as a form can take it back: its kind and its place, "" where the whole log is meant. */
export interface Given {
  readonly kind: keyof Answers;
  readonly place: string;
  readonly says: string;
  /** an earlier log settled it; nobody answered it for this one */
  readonly remembered: boolean;
}

const SINGLE = {
  dayOrder: (said: string) => `Dates are written ${{ dmy: "day first", mdy: "month first", ymd: "year first" }[said]}`,
  decimalMark: (said: string) => `The ${said === "," ? "comma" : "point"} stands before decimals`,
  clock: (said: string) => `Hours count from ${said === "dawn" ? "dawn" : "midnight"}`,
  years: (said: string) => `Years are ${said === "buddhist" ? "of the Buddhist era" : "of the common era"}`,
} as const;

const KEYED: Readonly<Record<string, (place: string, said: string) => string>> = {
  days: (place, said) => `The loads of “${place}” were dried on ${dayInWords(said)}`,
  meanings: (place, said) => `Column ${place} ${said === "ignore" ? "is not read" : `is ${meaning(said)}`}`,
  units: (place, said) => `Column ${place} is in ${unitInWords(said)}`,
  cells: (place, said) => `${place} is read as ${said}`,
  faults: (place, said) => `${place}: ${{ yes: "yes, noted", no: "no", "put-right": "yes, put right" }[said] ?? said}`,
  headings: (place, said) =>
    said === "0" ? `“${place}” has no headings` : `The headings of “${place}” are in row ${said}`,
  headingsFrom: (place, said) => `The headings of “${place}” begin in row ${said}`,
  are: (place, said) => `Row ${place} ${whatRowIs(String(said))}`,
};

const LISTED: Readonly<Record<string, (place: string) => string>> = {
  setAside: (place) => `Row ${place} is not a batch`,
  asWritten: (place) => `${place} stands as written`,
  leftOut: (place) => `The table with headings at ${place} is left out`,
};

/** Everything that was answered for this log, in sentences; what is remembered from an earlier one says so. */
export function answersInWords(answers: Answers, remembered: Remembered | null): Given[] {
  return Object.entries(answers).flatMap(([kind, said]) => {
    const known = KINDS.find((one) => one === kind);
    return known === undefined ? [] : sentences(known, said, remembered);
  });
}

const KINDS: readonly (keyof Answers)[] = [
  "dayOrder",
  "decimalMark",
  "clock",
  "years",
  "days",
  "meanings",
  "units",
  "cells",
  "faults",
  "headings",
  "are",
  "setAside",
  "asWritten",
  "leftOut",
];

function sentences(kind: keyof Answers, said: unknown, remembered: Remembered | null): Given[] {
  const before = remembered?.answers[kind];
  const given = (place: string, says: string, same: boolean): Given => ({
    kind,
    place,
    says: same && remembered !== null ? `${says}, as in ${earlierLog(remembered)}` : says,
    remembered: same,
  });
  if (typeof said === "string") {
    const single = Object.entries(SINGLE).find(([name]) => name === kind)?.[1];
    return single === undefined ? [] : [given("", single(said), before === said)];
  }
  if (Array.isArray(said)) {
    const listed = LISTED[kind];
    const had: readonly unknown[] = Array.isArray(before) ? before : [];
    return said.flatMap((place) =>
      listed === undefined || typeof place !== "string" ? [] : [given(place, listed(place), had.includes(place))],
    );
  }
  const keyed = KEYED[kind];
  if (keyed === undefined || typeof said !== "object" || said === null) return [];
  const had = new Map<string, unknown>(Object.entries(typeof before === "object" && before !== null ? before : {}));
  return Object.entries(said).map(([place, put]) => given(place, keyed(place, String(put)), had.get(place) === put));
}

function meaning(said: string): string {
  const known = MEANINGS.find((one) => one === said);
  return known === undefined ? said : MEANING_WORDS[known];
}

function whatRowIs(said: string): string {
  if (said === "new") return "is a new load";
  if (said === "instead") return "takes the place of loads that came one by one";
  return said.startsWith("with ")
    ? "is the dried weight of loads that were sent before"
    : "is a load that was sent before";
}
