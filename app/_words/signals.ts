import type { Direction, FirstQuestion, Watched } from "#server/terms/signal";
import { dayInWords, monthName } from "./days";

/** What to ask first about a change. Common practice of the trade; nobody is accused. */
export const QUESTION_WORDS: Record<FirstQuestion, string> = {
  "did-the-log-change": "Did the layout of the log change about that time?",
  "did-the-unit-change": "Did the unit in which it is written change, such as g for kg?",
  "did-the-scale-change": "Was the scale changed, moved or repaired?",
  "is-the-bowl-or-sand-in-the-weight": "Is the bowl, or sand, weighed with the dried larvae?",
  "is-it-taken-off-before-it-is-dry": "Is it taken off the fire before it is as dry as before?",
  "is-the-feed-drier": "Did the larvae come drier: older, drained longer, dried beforehand?",
  "is-sand-carried-over": "Is sand carried over with the dried larvae?",
  "is-it-drained-before-weighing": "Are the larvae now drained before they are weighed?",
  "does-the-scale-drift": "Does the scale drift? Weigh something known, and look at its battery.",
  "are-fines-left-in-the-sand": "Are fines left in the sand, or is something spilt?",
  "is-some-used-before-weighing": "Is some of it used or sold before it is weighed?",
  "is-the-feed-wetter": "Did the larvae come wetter: washed, younger, rained on?",
  "is-the-sand-greasy-or-fine": "Has the sand become greasy or fine, so that larvae stick to it?",
  "are-the-larvae-younger": "Are the larvae younger than before?",
  "does-the-hose-or-regulator-leak":
    "Does the hose or the regulator leak? Let somebody qualified look at it before the next fire.",
  "is-the-burner-blocked-or-in-the-wind": "Is the burner blocked, or does it stand in the wind?",
  "is-the-fuel-wet": "Is the fuel wet?",
  "is-a-cylinder-not-logged": "Was a cylinder, or wood, used and not written down?",
  "is-it-dried-in-the-sun-first": "Are the larvae dried in the sun first?",
  "are-the-loads-larger": "Are the loads larger, or more of them a day?",
  "is-the-gas-pressure-low": "Is the gas pressure low, from a cold or nearly empty cylinder?",
  "is-the-sand-damp-or-the-pan-overloaded": "Is the sand damp, or the pan loaded with more?",
  "is-the-fire-too-hot": "Is the fire too hot, or is there less stirring? Look at the colour.",
  "are-the-larvae-smaller": "Are the larvae smaller than before?",
  "is-preheating-counted": "Does somebody now count preheating into the minutes?",
  "did-the-writer-change": "Does somebody else write the log now?",
  "are-days-left-out": "Are days left out of the log?",
  "are-weights-still-to-come": "Are dried weights still to come?",
};

export const WATCHED_WORDS: Record<Watched, { readonly name: string; readonly per: string }> = {
  "dry-yield": { name: "Dry yield", per: "kg dried per kg fresh" },
  throughput: { name: "Throughput", per: "kg per pan-hour" },
  "fuel-intensity": { name: "Fuel intensity", per: "MJ per kg driven off" },
  "minutes-per-kg": { name: "Minutes per kg fresh", per: "minutes per kg" },
  completeness: { name: "Record", per: "share of what was owed" },
};

/** What a change may mean in general, before anybody has asked. */
const MAY_MEAN: Record<Watched, Record<Direction, string>> = {
  "dry-yield": {
    up: "A higher yield is not a better one: it may mean wetter product, a tare left in, or drier larvae.",
    down: "It may mean losses in the sand, wetter larvae, or a change of weighing.",
  },
  throughput: {
    up: "Faster may mean a hotter fire, smaller larvae, or product that is less dry.",
    down: "Slower may mean a weaker fire, damp sand or fuller pans.",
  },
  "fuel-intensity": {
    up: "More fuel for the same water: a leak, wind, wet fuel, or fewer loads on one preheating.",
    down: "Less fuel than before may be fuel that was not written down.",
  },
  "minutes-per-kg": {
    up: "Slower may mean a weaker fire, damp sand or fuller pans.",
    down: "Faster may mean a hotter fire, smaller larvae, or product that is less dry.",
  },
  completeness: { up: "More of what was owed is here.", down: "Less of what was owed is here." },
};

export interface SignalSaid {
  readonly measure: Watched;
  readonly direction: Direction;
  readonly since: string | null;
  readonly sinceFrom: string;
  readonly sinceTo: string;
  readonly change: number;
  readonly low: number;
  readonly high: number;
  readonly raisedOn: string;
}

/** "since 12 April": the day without its year, which the page's month tells. */
export function sinceInWords({ since, sinceFrom }: Pick<SignalSaid, "since" | "sinceFrom">): string {
  return since === null ? `some time after ${dayAndMonth(sinceFrom)}` : `since ${dayAndMonth(since)}`;
}

function dayAndMonth(day: string): string {
  return `${Number(day.slice(8))} ${monthName(day.slice(5, 7))}`;
}

/** "up 8 % (5 to 11)". */
export function changeInWords({ direction, change, low, high }: SignalSaid): string {
  const percent = (share: number) => Math.abs(share * 100).toFixed(0);
  const [near, far] = Math.abs(low) <= Math.abs(high) ? [low, high] : [high, low];
  const crosses = low < 0 && high > 0;
  const span = crosses
    ? `${(low * 100).toFixed(0)} to ${(high * 100).toFixed(0)}`
    : `${percent(near)} to ${percent(far)}`;
  return `${direction} ${percent(change)} % (${span})`;
}

/** A signal in one line: what, how much, since when, between which days, and when it was told. */
export function signalInWords(signal: SignalSaid): string {
  const { name, per } = WATCHED_WORDS[signal.measure];
  const span =
    signal.since === null
      ? sinceInWords(signal)
      : `${sinceInWords(signal)} (between ${dayInWords(signal.sinceFrom)} and ${dayInWords(signal.sinceTo)})`;
  return `${name}, ${per}: ${changeInWords(signal)} ${span}; raised on ${dayInWords(signal.raisedOn)}.`;
}

/** What stands behind a change that all make together is mostly nobody's doing. */
export const mayMeanTogether =
  "What all do together is mostly season, rain or feed; a site is not asked about it first.";

/** "Together: dry yield of pans of hot sand down 5 % (3 to 7) since 8 March." */
export function togetherInWords(signal: SignalSaid, dryer: string): string {
  const { name } = WATCHED_WORDS[signal.measure];
  return `Together: ${name.toLowerCase()} of ${dryer} ${changeInWords(signal)} ${sinceInWords(signal)}.`;
}

export function mayMean({ measure, direction }: Pick<SignalSaid, "measure" | "direction">): string {
  return MAY_MEAN[measure][direction];
}

/** "about 1 false alarm a month is accepted; the points of this month would bring 0.8 by chance". */
export function limitsInWords(accepted: number, streams: number, expectedFalse: number): string {
  const shown = (count: number) => count.toLocaleString("en-GB", { maximumFractionDigits: 1 });
  return `Limits are set so that about ${shown(accepted)} false ${accepted === 1 ? "alarm" : "alarms"} a month is to be expected over all ${streams} series watched; the points of this month would bring ${shown(expectedFalse)} by chance alone.`;
}

type Streamed = Pick<SignalSaid, "measure"> & { readonly method: string; readonly site: string | null };

/**
 * With whom a site's change went, as the rest of a sentence; "" where it went alone. Where nothing stands of its own dryer,
 * it was laid beside the others.
 */
export function alikeInWords(signal: Streamed & { readonly together: boolean }, signals: readonly Streamed[]): string {
  if (!signal.together) return "";
  const common = signals.filter(({ site, measure }) => site === null && measure === signal.measure);
  const others = common.length > 0 && common.every(({ method }) => method !== signal.method);
  return others ? "sites with other dryers moved the same way then" : "as others did";
}
