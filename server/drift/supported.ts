import type { Change } from "#server/terms/signal";

type Told = Pick<Change, "direction" | "raisedOn" | "sinceFrom" | "sinceTo">;

/**
 * True when the days as known now still tell of the change that was once raised.
 *
 * They do when a signal of the same stream and direction places its change in an overlapping span, or comes on the same
 * day. A late or corrected month may take the support away; the signal itself stays.
 */
export function isSupported(raised: Told, now: readonly Told[]): boolean {
  return now.some(
    (one) =>
      one.direction === raised.direction &&
      (one.raisedOn === raised.raisedOn || (one.sinceFrom <= raised.sinceTo && raised.sinceFrom <= one.sinceTo)),
  );
}
