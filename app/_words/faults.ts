import type { Fault, FaultCode, FaultEvidence } from "#server/terms/fault";
import type { ProblemCode } from "#server/terms/problem";
import { counted } from "./days";

/** What the log shows, and the question that it raises; never that somebody did wrong. */
const SENTENCES: { [Code in FaultCode]: (evidence: FaultEvidence[Code]) => string } = {
  "grams-for-kilograms": ({ loads, of }) =>
    `${counted(loads, "load", "loads")} of ${of} would have a usual yield if one of the two weights were in the other of g and kg. Were grams and kilograms mixed?`,
  "pounds-for-kilograms": ({ usualTimes, driedPerFresh, inPounds }) =>
    usualTimes === null || driedPerFresh > 0.5
      ? `As much as ${number(driedPerFresh)} kg comes out of each kg that goes in; with the dried weights in pounds it would be ${number(inPounds)}. Are they in pounds?`
      : `The loads weigh ${number(usualTimes)} times the usual one; a kilogram is 2.2 pounds. Are the weights in pounds?`,
  "container-in-both": ({ loads, containerKg }) =>
    `The weights of ${counted(loads, "load", "loads")} lie on a line that a container of ${number(containerKg)} kg in both of them would make. Was the bucket weighed with the larvae?`,
  "sand-in-dried": ({ loads, driedPerFresh }) =>
    `${counted(loads, "load", "loads")} came out heavier than they went in, about ${number(driedPerFresh)} times. Was there still sand in the dried weight?`,
  "in-out-exchanged": ({ loads, of }) =>
    `${counted(loads, "load", "loads")} of ${of} would have a usual yield the other way round. Do fresh in and dried out stand in each other's column?`,
  "rows-copied": ({ length, after }) =>
    after === 1
      ? `${counted(length, "row", "rows")} one after the other say the same weights and minutes. Were they measured each, or filled in?`
      : `A block of ${counted(length, "row", "rows")} stands here a second time, ${after} loads further down. Was it copied?`,
  "dried-worked-out": ({ loads, of, share }) =>
    `${loads} of ${counted(of, "dried weight", "dried weights")} are ${number(share)} times the fresh weight to the last digit. Were they worked out instead of weighed?`,
  "cylinder-gained": ({ beforeKg, afterKg }) =>
    `The cylinder weighed ${number(beforeKg)} kg before and ${number(afterKg)} kg after. Was another one put on in between? Then log the change instead.`,
  "year-mistyped": ({ rows, written, proposed }) =>
    `${counted(rows, "date says", "dates say")} ${written} and would fit this log in ${proposed}. Is the year mistyped?`,
  "weighed-together": ({ loads, together }) =>
    `One dried weight stands under ${counted(loads, "load", "loads")}; for all of them together it makes a yield of ${percent(together)}. Were they weighed together?`,
};

/** What a yes does to the log. */
const YES: Record<FaultCode, string> = {
  "grams-for-kilograms": "Yes, read the weights in the unit that fits",
  "pounds-for-kilograms": "Yes, read them as pounds",
  "container-in-both": "Yes, take the container off both weights",
  "sand-in-dried": "Yes, take the sand off the dried weights",
  "in-out-exchanged": "Yes, exchange the two columns",
  "rows-copied": "Yes, set the copy aside",
  "dried-worked-out": "Yes, they were worked out",
  "cylinder-gained": "Yes, a cylinder was changed",
  "year-mistyped": "Yes, put the year right",
  "weighed-together": "Yes, count them as one set",
};

/** A fault as it is put to a person: what the log shows, as a question. */
export function faultInWords(fault: Fault): string {
  return sentenceOf(fault.code, fault.evidence);
}

function sentenceOf<Code extends FaultCode>(code: Code, evidence: FaultEvidence[Code]): string {
  return SENTENCES[code](evidence);
}

/** What a yes does; where it changes nothing by itself, it is noted beside the log. */
export function yesInWords({ code, answers }: Pick<Fault, "code" | "answers">): string {
  return answers === null ? `${NOTED[code] ?? "Yes, it is so"}: note it, and change nothing` : YES[code];
}

const NOTED: Partial<Record<FaultCode, string>> = {
  "dried-worked-out": "Yes, they were worked out",
  "cylinder-gained": "Yes, a cylinder was changed",
  "rows-copied": "Yes, they were filled in",
};

/** Where a fault shows, so that somebody finds it in the sheet. */
export function whereInWords({ rows }: Pick<Fault, "rows">): string {
  const listed = rows.slice(0, MOST_LISTED).join(", ");
  return rows.length === 1
    ? `In row ${listed}.`
    : `In rows ${listed}${rows.length > MOST_LISTED ? ` and ${rows.length - MOST_LISTED} more` : ""}.`;
}

const MOST_LISTED = 12;

/** Which doubts about its rows a yes to a fault settles. */
export const FAULT_SETTLES: Readonly<Partial<Record<FaultCode, readonly ProblemCode[]>>> = {
  "in-out-exchanged": ["out-more-than-in"],
  "sand-in-dried": ["out-more-than-in"],
  "weighed-together": ["out-more-than-in"],
  "grams-for-kilograms": ["unit-slip-suspected"],
  "year-mistyped": ["day-outside-period"],
};

/** What a yes would do to the yield; empty where that cannot be told. */
export function effectInWords({ yieldNow, yieldThen }: Fault): string {
  if (yieldThen === null || yieldNow === yieldThen) return "";
  const now = yieldNow === null ? "" : ` instead of ${percent(yieldNow)}`;
  return `Their dry yield would then be ${percent(yieldThen)}${now}.`;
}

function number(value: number): string {
  return String(Number(value.toPrecision(3)));
}

function percent(share: number): string {
  return `${(share * 100).toFixed(0)} %`;
}
