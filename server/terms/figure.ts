/** The units in which figures are given. A figure's unit is part of it. */
export type Unit =
  | "kg/kg"
  | "kg"
  | "kg/day"
  | "kg/pan-hour"
  | "MJ/kg"
  | "MJ/day"
  | "MJ"
  | "share"
  | "count"
  | "days"
  | "minutes/kg";

/** Why a figure has no value. The sentences stand in `app/_words/figures.ts`, one for each. */
export type NoFigure =
  | "nothing-logged"
  | "no-batch-with-both-weights"
  | "no-batch-with-minutes"
  | "no-fresh-weight"
  | "no-fuel-known"
  | "fuel-window-open"
  | "fuel-shared-with-kitchen"
  | "fuel-of-several-methods"
  | "nothing-driven-off"
  | "pans-or-hours-not-declared"
  | "owed-not-declared"
  | "not-open"
  | "nothing-owed"
  | "nothing-produced-declared"
  | "dry-matter-not-declared"
  | "no-factor-set";

/**
 * What a figure was worked out from.
 *
 * `used` of `owed` things of the kind `of`; `owed` is null where nobody declared what was owed, and never what came.
 * `here` is how many arrived, so `here - used` arrived and could not be used for this figure.
 */
export interface RestsOn {
  readonly used: number;
  readonly here: number;
  readonly owed: number | null;
  readonly of: "batches" | "loads" | "days" | "fuel windows";
}

/** An interval of the level given (0.95 is 95 %): how much the process itself varies from day to day. */
export interface Interval {
  readonly low: number;
  readonly high: number;
  readonly level: number;
}

/** What the figure could have been, whatever the batches that are missing were. Not statistical: a worst case. */
export interface MissingRange {
  readonly low: number;
  readonly high: number;
}

/** A value that carries what a reader needs to believe it, or the reason there is none. Never a bare number. */
export type Figure = KnownFigure | UnknownFigure;

export interface KnownFigure {
  readonly known: true;
  readonly value: number;
  readonly unit: Unit;
  readonly restsOn: RestsOn;
  readonly interval: Interval | null;
  readonly missingRange: MissingRange | null;
  readonly asKnownOn: AsKnownOn;
  readonly edition: string;
}

export interface UnknownFigure {
  readonly known: false;
  readonly why: NoFigure;
  readonly unit: Unit;
  readonly restsOn: RestsOn;
  readonly asKnownOn: AsKnownOn;
  readonly edition: string;
}

/** The moment of knowledge: the size of the ledger, and its time as the ledger tells it (ISO 8601, UTC). */
export interface AsKnownOn {
  readonly ledgerSize: number;
  readonly time: string | null;
}

/** The name of the calculation. A published figure is frozen with the edition that made it. */
export const EDITION = "2026-11";

/**
 * A figure with a value.
 *
 * Throws when the value is not finite: every divisor is to be checked before.
 */
export function known(
  figure: Pick<KnownFigure, "value" | "unit" | "restsOn" | "asKnownOn"> &
    Partial<Pick<KnownFigure, "interval" | "missingRange">>,
): KnownFigure {
  if (!Number.isFinite(figure.value))
    throw new Error(`figure is ${figure.value}; every divisor is checked before known()`);
  return { interval: null, missingRange: null, edition: EDITION, known: true, ...figure };
}

/** A figure without a value, and why. */
export function unknown(figure: Pick<UnknownFigure, "why" | "unit" | "restsOn" | "asKnownOn">): UnknownFigure {
  return { edition: EDITION, known: false, ...figure };
}
