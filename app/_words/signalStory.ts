import type { Unit } from "#server/terms/figure";
import { type DeclaredChange, type Direction, type Watched, WORSE } from "#server/terms/signal";
import type { Coincidence, SignalCost, SignalTold } from "#server/terms/signalTold";
import { counted, dayInWords } from "./days";
import { numberInWords, valueInWords } from "./figures";
import { changeInWords, type SignalSaid, WATCHED_WORDS } from "./signals";

export const WATCHED_UNITS: Record<Watched, Unit> = {
  "dry-yield": "kg/kg",
  throughput: "kg/pan-hour",
  "fuel-intensity": "MJ/kg",
  "minutes-per-kg": "minutes/kg",
  completeness: "share",
};

/** What a change comes to over 30 days: its unit, and what is taken to stay as it was. */
const COST_WORDS: Record<SignalCost["unit"], { readonly unit: string; readonly of: string; readonly same: string }> = {
  "kg-dried": { unit: "kg", of: "dried", same: "from the same fresh larvae" },
  "kg-fresh": { unit: "kg", of: "fresh through the pans", same: "in the same pan-hours" },
  mj: { unit: "MJ", of: "of fuel", same: "for the same water driven off" },
  minutes: { unit: "minutes", of: "on the fire", same: "for the same fresh larvae" },
  batches: { unit: "batches", of: "usable", same: "of as many owed" },
};

type Said = Pick<SignalTold, "change" | "low" | "high" | "cost">;

/** "Fuel intensity up 42 % (38 to 47)". */
export function stepInWords(signal: SignalSaid): string {
  return `${WATCHED_WORDS[signal.measure].name} ${changeInWords(signal)}`;
}

/** "7.91 to 11.35 MJ per kg driven off". */
export function levelsInWords({ measure, before, after }: { measure: Watched; before: number; after: number }): string {
  const unit = WATCHED_UNITS[measure];
  const from = numberInWords(before, unit);
  if (measure === "dry-yield") return `from ${from} to ${numberInWords(after, unit)} kg dried per 100 kg fresh`;
  return measure === "fuel-intensity"
    ? `from ${from} to ${numberInWords(after, unit)} MJ per kg driven off`
    : `from ${from} to ${valueInWords(after, unit)}`;
}

/** "about 521 MJ (467 to 583) more of fuel a month for the same water driven off"; null where it comes to nothing that can be weighed. */
export function aMonthInWords({ change, low, high, cost }: Said): string | null {
  const { per30Days, unit } = cost;
  if (per30Days === 0 || change === 0) return null;
  const words = COST_WORDS[unit];
  const ends = [low, high].map((share) => (Math.sign(per30Days) * per30Days * share) / change);
  const [least = 0, most = 0] = ends.sort((a, b) => a - b);
  const direction = per30Days > 0 ? "more" : "less";
  return `about ${rounded(Math.abs(per30Days))} ${words.unit} (${rounded(least)} to ${rounded(most)}) ${direction} ${words.of} a month, ${words.same}`;
}

/** Said of a signal about a record: loads that nobody wrote down may have been dried like any others. */
export const NO_COST =
  "A record that is missing costs no larvae and no fuel, as far as anyone can tell: what was not written down may have been dried all the same.";

/** "Ordered as 17 kg dried a month.": what stories are ordered by. One about records alone has no cost, and stands last. */
export function orderedByInWords(driedKg: number | null, measures: readonly Watched[]): string {
  if (driedKg !== null) return `Ordered as ${rounded(driedKg)} kg dried a month.`;
  return measures.length > 0 && measures.every((measure) => measure === "completeness")
    ? `It has no cost, and so stands after those that have one. ${NO_COST}`
    : "It comes to no weight that it could be ordered by.";
}

/** Since which day, with the days between which it began; or that the day cannot be told. */
export function sinceWholeInWords({ since, sinceFrom, sinceTo }: Omit<SignalSaid, "measure">): string {
  if (since === null) return `date not determined: some time between ${spanWithAnd(sinceFrom, sinceTo)}`;
  if (sinceFrom === sinceTo) return `since ${dayInWords(since)}`;
  return `since ${dayInWords(since)}, with 95 % between ${spanWithAnd(sinceFrom, sinceTo)}`;
}

function spanWithAnd(from: string, to: string): string {
  return `${dayInWords(from)} and ${dayInWords(to)}`;
}

/** Which way is worse, where one is. A higher yield is neither. */
export function worseInWords(measure: Watched, direction: Direction): string {
  const worse = WORSE[measure];
  if (worse === null) return "Neither way is the better one.";
  return worse === direction
    ? "This is the worse way."
    : "This is not the worse way; it may still be a record that changed.";
}

const BEGUN: Record<DeclaredChange["what"], string> = {
  method: "the way of drying changed",
  pan: "the pans changed",
  feed: "the feed changed",
  scale: "the scale changed",
  "weighing-moment": "the moment of weighing changed",
  "log-layout": "the layout of the log changed",
  other: "something was declared changed",
};

/** "On 3 Apr 2031 the layout of the log changed, as was declared.": said before anything else about a signal near it. */
export function coincidesInWords({ day, what, how }: Coincidence): string {
  const words = what === "unit" ? "the unit in which it is written changed" : BEGUN[what];
  return `On ${dayInWords(day)} ${words}, ${how === "declared" ? "as was declared" : "by what the logs show"}.`;
}

/** What began a reference. */
export function begunByInWords(by: "first-day" | "real-change" | DeclaredChange["what"]): string {
  if (by === "first-day") return "the first day";
  if (by === "real-change") return "a signal was answered as a real change";
  return BEGUN[by];
}

/** "told on 3 Oct 2031, and again 4 times until 20 Oct 2031". */
export function toldInWords(days: readonly string[]): string {
  const [first = "", ...again] = [...days].sort();
  if (again.length === 0) return `told on ${dayInWords(first)}`;
  return `told on ${dayInWords(first)}, and again ${again.length === 1 ? "once" : counted(again.length, "time")} until ${dayInWords(again.at(-1) ?? first)}`;
}

function rounded(value: number): string {
  const digits = Math.abs(value) < 10 ? 1 : 0;
  return value.toLocaleString("en-GB", { maximumFractionDigits: digits }).replace("-", "−");
}
