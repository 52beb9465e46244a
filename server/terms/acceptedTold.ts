import type { Method } from "./batch";
import type { Signal, Watched } from "./signal";
import type { FoundAfter, StreamTold } from "./signalTold";

/** Each change counts once: what only says an earlier one again is left out, and so is what is part of a common one. */
export function isCountedOnce(one: Pick<Signal, "chart" | "confirms"> & { readonly together: boolean }): boolean {
  return one.chart === "drift" && one.confirms === null && !one.together;
}

/** One stream in the table of how soon changes would be found. */
export interface StreamWatched extends StreamTold {
  readonly name: string | null;
  readonly points: number;
  readonly state: "learning" | "running";
  readonly days: number;
  readonly learn: number;
  readonly found: readonly FoundAfter[];
}

/** A quarter against the days of the same reference before it. */
export interface SlowTold extends StreamTold {
  readonly name: string | null;
  /** as shares */
  readonly change: number;
  readonly low: number;
  readonly high: number;
  readonly chance: number;
  readonly adjusted: number;
  readonly named: boolean;
  readonly days: number;
  readonly daysBefore: number;
}

export interface MonthWatched {
  readonly month: string;
  readonly streams: number;
  readonly points: number;
  /** false alarms a month as the officer said them, how that is meant, and the average that follows */
  readonly said: number;
  readonly reading: "on-average" | "at-most-one-in-95-percent";
  readonly accepted: number;
  /** by chance, from the points that came */
  readonly expectedFalse: number;
  /** raised in the month, each change once */
  readonly raised: number;
  readonly answered: number;
  /** answered as a real change, wrong records or a passing cause; answered with no cause found */
  readonly confirmed: number;
  readonly falseAlarms: number;
  /** limit of the drift chart in its standard deviations, and mean points between two false signals of a chart */
  readonly limit: number;
  readonly meanPoints: number;
}

export interface AcceptedShown {
  /** in force today */
  readonly said: number;
  readonly reading: "on-average" | "at-most-one-in-95-percent";
  /** of the last twelve months that were watched, oldest first */
  readonly months: readonly MonthWatched[];
  /** of the last month */
  readonly streams: readonly StreamWatched[];
  /** methods and measures that are still held to defaults */
  readonly defaults: readonly { readonly method: Method; readonly measure: Watched; readonly streams: number }[];
  readonly slow: readonly SlowTold[];
  /** first day of the quarter that `slow` looks at; null where nothing was watched */
  readonly quarterFrom: string | null;
  /** expected share of false ones among those named */
  readonly falseShare: number;
}
