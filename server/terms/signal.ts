import type { Method } from "./batch";

/** What is watched for change, one stream for each site and method. */
export const WATCHED = ["dry-yield", "throughput", "fuel-intensity", "minutes-per-kg", "completeness"] as const;
export type Watched = (typeof WATCHED)[number];

/** Which stream. `site` null: what the sites of a method have in common. */
export interface StreamName {
  readonly site: number | null;
  readonly method: Method;
  readonly measure: Watched;
}

export type Direction = "up" | "down";

/** The way that is worse, where there is one: a higher yield is not a better one. */
export const WORSE: Readonly<Record<Watched, Direction | null>> = {
  "dry-yield": null,
  throughput: "down",
  "fuel-intensity": "up",
  "minutes-per-kg": "up",
  completeness: "down",
};

/**
 * A lasting change in one stream, as the days up to `raisedOn` tell it.
 *
 * The new level began on `since`, and with 95 % between `sinceFrom` and `sinceTo`; where that set spans the whole
 * reference the date is not determined and `since` is null. `change` is the difference as a share of the level before
 * (0.08 is 8 % more), with its interval `low` to `high` at `level`.
 */
export interface Change {
  readonly raisedOn: string;
  readonly direction: Direction;
  readonly since: string | null;
  readonly sinceFrom: string;
  readonly sinceTo: string;
  readonly dateDetermined: boolean;
  readonly change: number;
  readonly low: number;
  readonly high: number;
  readonly level: number;
  /** num per den before and after, in the measure's own unit */
  readonly before: number;
  readonly after: number;
  /** what the change comes to in the numerator's unit (kg, MJ, minutes) over 30 days as busy as those since it */
  readonly per30Days: number;
  /** days with a value since the change, up to the day it was raised */
  readonly daysSince: number;
}

/** A raised change. One that only says an earlier one again carries the day on which that one was raised. */
export interface Signal extends StreamName, Change {
  /** "monthly": a month of the record that is told by itself */
  readonly chart: "drift" | "monthly";
  readonly confirms: string | null;
}

/** One day far outside: a question about the record, not a change of the process. */
export interface SpikeQuestion {
  readonly day: string;
  readonly value: number;
  /** within these the day would have raised no question */
  readonly low: number;
  readonly high: number;
  /** null for a day of the learning time, which is screened against its own middle */
  readonly score: number | null;
}

/** What is done about a signal: each ends or mends the reference that raised it. */
export type Acknowledged =
  | { readonly kind: "real-change"; readonly from: string }
  | { readonly kind: "data-error"; readonly days: readonly string[] }
  | { readonly kind: "temporary-cause"; readonly from: string; readonly to: string }
  | { readonly kind: "no-cause-found"; readonly on: string };

/** A declared change begins a new reference at once. */
export interface DeclaredChange {
  readonly from: string;
  readonly what: "method" | "pan" | "feed" | "scale" | "weighing-moment" | "log-layout" | "other";
}

/** What to ask first about a change; the sentences stand in the words room. Common practice of the trade. */
export const FIRST_QUESTIONS = [
  "did-the-log-change",
  "did-the-unit-change",
  "did-the-scale-change",
  "is-the-bowl-or-sand-in-the-weight",
  "is-it-taken-off-before-it-is-dry",
  "is-the-feed-drier",
  "is-sand-carried-over",
  "is-it-drained-before-weighing",
  "does-the-scale-drift",
  "are-fines-left-in-the-sand",
  "is-some-used-before-weighing",
  "is-the-feed-wetter",
  "is-the-sand-greasy-or-fine",
  "are-the-larvae-younger",
  "does-the-hose-or-regulator-leak",
  "is-the-burner-blocked-or-in-the-wind",
  "is-the-fuel-wet",
  "is-a-cylinder-not-logged",
  "is-it-dried-in-the-sun-first",
  "are-the-loads-larger",
  "is-the-gas-pressure-low",
  "is-the-sand-damp-or-the-pan-overloaded",
  "is-the-fire-too-hot",
  "are-the-larvae-smaller",
  "is-preheating-counted",
  "did-the-writer-change",
  "are-days-left-out",
  "are-weights-still-to-come",
] as const;
export type FirstQuestion = (typeof FIRST_QUESTIONS)[number];

/** Something noticed in the logs near the change: it is asked about before anything on the fire. */
export interface Noticed {
  readonly day: string;
  readonly what: "log-layout" | "unit" | "scale";
}
