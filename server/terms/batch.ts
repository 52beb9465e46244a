/**
 * A quantity as it was written and as it is reckoned with.
 *
 * `exact` is the plain decimal of the converted value ("3.2"), kept for the ledger and never rounded;
 * the number is the double nearest to it, for reckoning.
 */
export interface Quantity {
  readonly exact: string;
  readonly value: number;
}

/** What one row of a log stands for. */
export type Grain = "load" | "pan-day" | "site-day" | "set";

/** How a batch was dried. A site declares its usual one; a column may say otherwise. */
export const METHODS = ["sand-pan", "hot-air-cabinet", "microwave", "sun", "other"] as const;
export type Method = (typeof METHODS)[number];

export type TestResult = "pass" | "fail" | "not-tested";

/** What a site lead calls a batch, and when it was on the fire: what it is found again by. */
export interface BatchNames {
  /** production day: the day of the start, in the site's time zone */
  readonly day: string;
  readonly number: string | null;
  readonly pan: string | null;
  /** minutes after midnight of `day` */
  readonly startMinute: number | null;
  readonly harvest: string | null;
}

/** A batch as the log says it. Null means that the log does not say. Masses in kg, times in minutes. */
export interface BatchWritten extends BatchNames {
  /** null: the log does not say; the batch then takes the one that its site declared for the day */
  readonly method: Method | null;
  readonly grain: Grain;
  /** loads that the row stands for; 1 for a load */
  readonly loads: number;
  readonly fresh: Quantity | null;
  readonly dried: Quantity | null;
  /** the dried weight is still to come; false once it is here or when the log says there is none */
  readonly driedToCome: boolean;
  /** pan-minutes on the fire */
  readonly minutes: Quantity | null;
  readonly endMinute: number | null;
  readonly rejects: Quantity | null;
  readonly sandKg: Quantity | null;
  /** which load on this sand it was, as counted by the site: 1 for the first */
  readonly sandCycle: number | null;
  readonly newSand: boolean | null;
  readonly crushTest: TestResult | null;
  readonly crisp: TestResult | null;
  readonly colour: string | null;
  readonly moistureReading: Quantity | null;
  readonly waterActivity: Quantity | null;
}

/** A batch as known at some size of the ledger. `id` is permanent. */
export interface Batch extends BatchWritten {
  readonly method: Method;
  readonly id: string;
  readonly site: number;
  /** true when its first row was here on or before the day it was due */
  readonly inTime: boolean;
}

/** Order of content: by day, method, number, pan, start, then values. Never by id or arrival. */
export function inOrderOfContent(a: BatchWritten, b: BatchWritten): number {
  return (
    compare(a.day, b.day) ||
    compare(a.method, b.method) ||
    compare(a.number, b.number) ||
    compare(a.pan, b.pan) ||
    compare(a.startMinute, b.startMinute) ||
    compare(a.fresh?.value, b.fresh?.value) ||
    compare(a.dried?.value, b.dried?.value) ||
    compare(a.minutes?.value, b.minutes?.value) ||
    compare(a.loads, b.loads)
  );
}

/** Nothing comes before something; numbers by size, texts by code unit, so that every machine agrees. */
function compare(a: string | number | null | undefined, b: string | number | null | undefined): number {
  if (a == null || b == null) return Number(a != null) - Number(b != null);
  return a < b ? -1 : a > b ? 1 : 0;
}
