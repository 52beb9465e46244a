import type { Unit } from "#server/terms/figure";
import type { PointTold } from "#server/terms/signalTold";
import type { Level } from "./timePanel";
import type { TimeEvent } from "./timePanels";

/** One day of a series: its value among what its earlier days led to expect, and recent days taken together. */
export type DrawnDay = Pick<PointTold, "day" | "value" | "low" | "high" | "chart" | "limit" | "state" | "raised">;

/** Where a new level began, as far as its days tell. */
export interface Begun {
  readonly from: string;
  readonly to: string;
  /** null: not determined */
  readonly best: string | null;
}

/** A view of the same days: what went beyond the usual, added up to either side. */
export interface Sums {
  readonly day: string;
  readonly up: number;
  readonly down: number;
}

/** A series over time, as its pictures need it. */
export interface ChangeDrawn {
  readonly title: string;
  /** what a value is, with its unit in words */
  readonly valueTitle: string;
  readonly unit: Unit;
  readonly from: string;
  readonly to: string;
  /** the days of each reference; no line is drawn from one to the next */
  readonly references: readonly (readonly DrawnDay[])[];
  /** levels before and after a change */
  readonly levels: readonly Level[];
  readonly begun: Begun | null;
  /** what one point is: a day, a fuel reading, a week, a month */
  readonly point: string;
  /** the day on which the signal that this is about was told */
  readonly toldOn: string | null;
  readonly events: readonly TimeEvent[];
  readonly sums?: readonly Sums[];
}
