import type { Reading } from "#server/drift/accepted";
import type { SlowChange } from "#server/drift/slowChange";
import type { Held } from "#server/drift/watchMonth";
import type { Method } from "#server/terms/batch";
import type { Acknowledged, Change, Direction, Signal, StreamName, Watched } from "#server/terms/signal";
import type { SignalStanding } from "#server/terms/signalTold";
import type { RecordHeld } from "./watchRecords";
import type { SiteWatched } from "./watchSites";

/** Site 0 stands for what the sites of a method did together. */
export const TOGETHER = 0;

/** By what a signal is known for good. */
export interface SignalKey {
  readonly site: number;
  readonly method: Method;
  readonly measure: Watched;
  readonly raisedOn: string;
  readonly direction: Direction;
}

/** A signal as it stood at the end of a month: one row of what is recorded. */
export interface SignalRow extends SignalKey, Change {
  readonly month: string;
  readonly state: SignalStanding;
  readonly chart: Signal["chart"];
  readonly confirms: string | null;
  readonly together: boolean;
  readonly costDriedKg: number | null;
}

/** What a month is held to, as it was recorded when it was first watched. */
export interface MonthHeld extends Held, RecordHeld {
  readonly month: string;
  readonly edition: string;
  readonly accepted: number;
  readonly reading: Reading;
}

export interface MonthRow extends MonthHeld {
  readonly streams: number;
  readonly points: number;
  readonly expectedFalse: number;
  readonly knownSize: number;
}

/** How far a stream had come at the end of a month. */
export interface StreamRow {
  readonly month: string;
  readonly site: number;
  readonly method: Method;
  readonly measure: Watched;
  readonly points: number;
  readonly referenceFrom: string | null;
  readonly begunBy: string;
  readonly learnt: number;
  readonly unit: number | null;
  readonly level: number | null;
  readonly slow: Omit<SlowChange, "adjusted" | "named"> | null;
}

/** An answer that stands, with the signal it was given to. */
export interface AnswerRow extends SignalKey {
  readonly acknowledged: Acknowledged;
}

/** Everything that watching hangs on: nothing else is looked at, so the same order always plans the same. */
export interface WatchOrder {
  readonly edition: string;
  /** size of the ledger, and the day it was when that was known */
  readonly knownSize: number;
  readonly today: string;
  readonly sites: readonly SiteWatched[];
  readonly answers: readonly AnswerRow[];
  /** months to watch, both in; all signals ever raised and, of these months, what was recorded */
  readonly from: string;
  readonly to: string;
  /** the first month of which something may have changed; those before are watched because their signals may still stand */
  readonly sayFrom: string;
  readonly signals: readonly SignalRow[];
  readonly months: readonly MonthRow[];
  readonly streams: readonly StreamRow[];
  /** false alarms that the officer accepts, by month */
  readonly accepted: Readonly<Record<string, { readonly perMonth: number; readonly reading: Reading }>>;
}

/** What is to be recorded. */
export interface WatchRows {
  readonly months: readonly MonthRow[];
  readonly streams: readonly StreamRow[];
  readonly signals: readonly SignalRow[];
}

export function streamKey({ site, method, measure }: StreamName): string {
  return `${site ?? TOGETHER} ${method} ${measure}`;
}

export function signalKey(key: SignalKey): string {
  return `${streamKey(key)} ${key.raisedOn} ${key.direction}`;
}
