import type { Method } from "./batch";

/**
 * The sums kept per day. Ratios are worked out when they are asked for; only sums add up.
 *
 * - `here`: every batch that arrived. num = loads, den = batches.
 * - `in-time`: those that arrived by the day due. num = loads, den = batches.
 * - `fresh`: batches with a fresh weight. num = kg fresh, den = loads.
 * - `dry-yield`: batches with both weights. num = kg dried, den = kg fresh.
 * - `pan-time`: batches with a fresh weight and minutes. num = kg fresh, den = pan-minutes.
 * - `minutes`: batches with minutes. num = pan-minutes, den = loads.
 * - `scale`: batches with both weights. num = Σ of the variance that the dried scale's step adds (kg²), den = that of the fresh scale.
 * - `to-come`: batches whose dried weight is still to come. num = kg fresh, den = batches.
 */
export const SUMMED = ["here", "in-time", "fresh", "dry-yield", "pan-time", "minutes", "scale", "to-come"] as const;
export type Summed = (typeof SUMMED)[number];

/** One day of one site and method. `batches` and `loads` are the support of this sum alone. */
export interface DaySum {
  readonly site: number;
  readonly day: string;
  readonly method: Method;
  readonly measure: Summed;
  readonly batches: number;
  readonly loads: number;
  readonly num: number;
  readonly den: number;
}

/** A month of day sums, merged in the order of days; the squares and products are over days, for intervals by day. */
export interface MonthSum {
  readonly site: number;
  readonly month: string;
  readonly method: Method;
  readonly measure: Summed;
  readonly days: number;
  readonly batches: number;
  readonly loads: number;
  readonly num: number;
  readonly den: number;
  readonly num2: number;
  readonly den2: number;
  readonly numDen: number;
}
