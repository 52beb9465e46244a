import type { RestsOn, Unit } from "#server/terms/figure";
import type { Panel } from "../../_charts/timePanel";
import type { TimeEvent } from "../../_charts/timePanels";

/** A point as the browser gets it: days, value, interval, and what it rests on. */
export interface CloserPoint {
  readonly from: string;
  readonly to: string;
  readonly value: number | null;
  readonly low?: number;
  readonly high?: number;
  readonly rests?: RestsOn;
  readonly hollow?: true;
}

export interface CloserPanel {
  readonly title: string;
  readonly unit: Unit;
  readonly points: readonly CloserPoint[];
  readonly levels: readonly { readonly from: string; readonly to: string; readonly value: number }[];
  readonly mark: number | null;
}

/** What a browser needs to draw the panels itself. */
export interface Closer {
  readonly short: string;
  readonly long: string;
  readonly from: string;
  readonly to: string;
  readonly panels: readonly CloserPanel[];
  readonly events: readonly TimeEvent[];
}

/** The panels without whatever a browser does not draw, so that they weigh little on a slow line. */
export function closerPanels(panels: readonly Panel[]): CloserPanel[] {
  return panels.map(({ title, points, levels = [], floor = null, target = null }) => ({
    title,
    unit: points[0]?.figure.unit ?? "count",
    levels,
    mark: floor ?? target,
    points: points.map(({ from, to, figure, hollow }) => {
      if (!figure.known) return { from, to, value: null };
      const { value, interval, restsOn } = figure;
      return {
        from,
        to,
        value: short(value),
        ...(interval === null ? {} : { low: short(interval.low), high: short(interval.high) }),
        rests: restsOn,
        ...(hollow ? { hollow: true as const } : {}),
      };
    }),
  }));
}

/** Five digits are more than a screen shows. */
function short(value: number): number {
  return Number(value.toPrecision(5));
}
