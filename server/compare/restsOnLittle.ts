import type { Measured } from "./entry";

/** Why a figure rests on too little to be compared: it is drawn hollow, and moves no other site's comparison. */
export type Little =
  | { readonly why: "few-days"; readonly days: number }
  | { readonly why: "wide-interval"; readonly halfShare: number }
  | { readonly why: "little-usable"; readonly share: number; readonly mark: number };

/** Days or fuel windows below which nothing is compared. */
export const FEWEST_DAYS = 5;
/** An interval that reaches further than this share of the value to either side says too little. */
export const WIDEST_HALF = 0.2;
/** Share of what was owed that must be usable, where the programme declares none. Common practice. */
export const USABLE_MARK = 0.8;

/**
 * What is thin about a figure, the gravest first; null where it can be compared, and where there is no figure.
 *
 * Shares of a record are counts and need no days.
 *
 * restsOnLittle({ 0.30, interval 0.22 to 0.38, 9 days }) // half-width 0.08, 27 % of the value: "wide-interval"
 */
export function restsOnLittle({ figure, clusters, usable }: Measured, mark: number): Little | null {
  if (!figure.known || figure.unit === "share") return null;
  if (clusters < FEWEST_DAYS) return { why: "few-days", days: clusters };
  const { value, interval } = figure;
  const half = interval === null ? 0 : (interval.high - interval.low) / 2;
  if (half > WIDEST_HALF * Math.abs(value)) return { why: "wide-interval", halfShare: half / Math.abs(value) };
  if (usable !== null && usable < mark) return { why: "little-usable", share: usable, mark };
  return null;
}
