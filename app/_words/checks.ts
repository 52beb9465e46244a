import type { Check, CheckCode } from "#server/measures/checks";
import { daysInWords } from "./days";

const number = (value: number | null, digits = 1) =>
  value === null ? "" : value.toLocaleString("en-GB", { maximumFractionDigits: digits });
const percent = (value: number | null) => `${number(value === null ? null : value * 100)} %`;
const onDays = (days: readonly string[]) => (days.length === 0 ? "" : ` (${daysInWords(days)})`);

/** What record and figures say against each other, as a question and never as a verdict. */
const SENTENCES: Record<CheckCode, (check: Check) => string> = {
  "logged-on-closed-day": ({ days }) =>
    `Loads were logged on days declared as closed${onDays(days)}. Which of the two is right?`,
  "logged-while-not-open": ({ days }) =>
    `Loads were logged on days on which the site was not open${onDays(days)}. Is the date of opening right?`,
  "logged-though-nothing-produced": ({ days }) =>
    `Loads were logged in a month declared as without production${onDays(days)}. Which of the two is right?`,
  "closed-claimed-late": ({ days }) =>
    `Closed days were declared after the month was due${onDays(days)}. They are still owed unless the programme accepts them.`,
  "more-here-than-owed": ({ value, limit }) =>
    `${number(value)} are here and ${number(limit)} were owed. Was a log sent twice under new numbers, or is the schedule out of date?`,
  "numbers-missing": ({ value }) =>
    `${number(value)} numbers of the series are missing. Were these loads roasted and not logged?`,
  "yield-below-dry-matter": ({ value, limit }) =>
    `The dry yield of ${percent(value)} lies below the dry matter of the larvae, ${percent(limit)}. Was some lost, or is the dry matter another one?`,
  "fuel-below-what-water-needs": ({ value, limit }) =>
    `${number(value, 2)} MJ per kg driven off is less than water needs to evaporate (about ${number(limit, 2)}). Fuel is missing from the record, or mass was lost in another way.`,
  "fuel-above-usual": ({ value, limit }) =>
    `${number(value, 2)} MJ per kg driven off is more than is usual (${number(limit, 2)}). Is there a leak, idle fire, or fuel of something else in it?`,
  "firepower-unusual": ({ value, limit }) =>
    `The fire of a pan comes out at ${number(value)} kW on average, beyond the usual ${number(limit)} kW. Are fuel and minutes both right?`,
  "roasting-share-above-one": ({ value }) =>
    `Pans were on the fire for ${percent(value)} of their hours. Are pans, hours and minutes right?`,
  "fuel-overlaps": ({ days }) =>
    `Fuel is known in two ways for the same days${onDays(days)}; the better known one was taken.`,
  "fuel-without-amount": ({ days }) => `Fuel was logged whose amount or heat cannot be told${onDays(days)}.`,
  "fuel-without-loads": ({ days }) => `Fuel was logged for days without a load${onDays(days)}. Were loads not logged?`,
};

export function checkInWords(check: Check): string {
  return SENTENCES[check.code](check);
}
