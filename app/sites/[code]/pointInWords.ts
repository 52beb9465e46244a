import type { Unit } from "#server/terms/figure";
import { spanInWords } from "../../_words/days";
import { numberInWords, restsOnInWords, valueInWords } from "../../_words/figures";
import type { CloserPoint } from "./closerOf";

/** "3 to 9 Mar 2031: 33.1 % (32.0 to 34.2), rests on 12 of 14 batches". */
export function pointInWords({ from, to, value, low, high, rests }: CloserPoint, unit: Unit): string {
  const days = spanInWords(from, to);
  if (value === null) return `${days}: nothing is known`;
  const interval =
    low === undefined || high === undefined ? "" : ` (${numberInWords(low, unit)} to ${numberInWords(high, unit)})`;
  const support = rests === undefined ? "" : `, rests on ${restsOnInWords(rests)}`;
  return `${days}: ${valueInWords(value, unit)}${interval}${support}`;
}
