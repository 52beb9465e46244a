import type { FirstQuestion, Watched } from "#server/terms/signal";
import type { SignalTold, StreamTold } from "#server/terms/signalTold";
import { counted, dayInWords } from "./days";
import { METHOD_WORDS } from "./methods";
import { stepInWords } from "./signalStory";
import { WATCHED_WORDS } from "./signals";

/** "Dry yield, kg dried per 100 kg fresh": what a day's value is. */
export function valueTitleOf({ site, measure }: StreamTold): string {
  const { name, per } = WATCHED_WORDS[measure];
  if (site === null) return `${name}: the middle of all sites, in spreads of a usual day`;
  return measure === "dry-yield" ? `${name}, kg dried per 100 kg fresh` : `${name}, ${per}`;
}

/** "Fuel intensity, MJ per kg driven off": the same at the head of a column. */
export function valueHeading({ site, measure }: StreamTold): string {
  const { name, per } = WATCHED_WORDS[measure];
  if (site === null) return "Middle of all, spreads";
  return measure === "dry-yield" || measure === "completeness" ? `${name}, %` : `${name}, ${per}`;
}

/** "Salt Lane: fuel intensity up 42 % (38 to 47)". */
export function signalTitle(signal: SignalTold, name: string | null): string {
  const step = stepInWords(signal);
  return `${whereOf(signal, name)}: ${step.charAt(0).toLowerCase()}${step.slice(1)}`;
}

/** The site's name, or whose movement it is. */
export function whereOf({ site, method }: StreamTold, name: string | null): string {
  return site === null ? `All with ${METHOD_WORDS[method]}` : (name ?? site);
}

/** What a day of a measure weighs. */
export const WEIGHS_WORDS: Record<Watched, { readonly name: string; readonly unit: string }> = {
  "dry-yield": { name: "Fresh in", unit: "kg" },
  throughput: { name: "On the fire", unit: "pan-hours" },
  "fuel-intensity": { name: "Driven off", unit: "kg" },
  "minutes-per-kg": { name: "Fresh in", unit: "kg" },
  completeness: { name: "Owed", unit: "loads or lines" },
};

const AT_THE_FIRE: readonly FirstQuestion[] = [
  "does-the-hose-or-regulator-leak",
  "is-the-burner-blocked-or-in-the-wind",
  "is-the-gas-pressure-low",
  "is-the-fire-too-hot",
  "is-the-fuel-wet",
  "is-a-cylinder-not-logged",
  "is-the-sand-damp-or-the-pan-overloaded",
];

/** True where finding out may bring somebody to the fire or the gas: cautions then stand beside the questions. */
export function touchesFire(questions: readonly FirstQuestion[]): boolean {
  return questions.some((question) => AT_THE_FIRE.includes(question));
}

const PACKED: readonly FirstQuestion[] = ["is-it-taken-off-before-it-is-dry"];

/** True where what was dried may be less dry than before. */
export function touchesPacking(questions: readonly FirstQuestion[]): boolean {
  return questions.some((question) => PACKED.includes(question));
}

/** Said where the date is not determined, so that nobody reads one into the chart. */
export const NOT_DETERMINED =
  "The date is not determined: the days fit a change almost anywhere in this reference. Do not ask what happened on one day.";

const POINTS: Record<Watched, { readonly one: string; readonly many: string }> = {
  "dry-yield": { one: "day", many: "days" },
  throughput: { one: "day", many: "days" },
  "fuel-intensity": { one: "fuel reading", many: "fuel readings" },
  "minutes-per-kg": { one: "day", many: "days" },
  completeness: { one: "month", many: "months" },
};

/** What one point of a series is called: what sites do together is told by weeks. */
export function pointWords({ site, measure }: Pick<StreamTold, "site" | "measure">): {
  readonly one: string;
  readonly many: string;
} {
  return site === null ? { one: "week", many: "weeks" } : POINTS[measure];
}

/** "6 fuel readings since then until it was told on 23 Jul 2031." */
export function daysBehindInWords(signal: Pick<SignalTold, "daysSince" | "raisedOn" | "measure" | "site">): string {
  const { one, many } = pointWords(signal);
  return `${counted(signal.daysSince, one, many)} since then until it was told on ${dayInWords(signal.raisedOn)}.`;
}
