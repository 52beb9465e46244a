import { type DayPoint, seriesOf } from "#server/drift/series";
import type { SignalRow, WatchOrder, WatchRows } from "#server/jobs/watchOrder";
import { signalKey, streamKey } from "#server/jobs/watchOrder";
import { watchPlan } from "#server/jobs/watchPlan";
import type { SiteWatched } from "#server/jobs/watchSites";
import type { DeclaredChange } from "#server/terms/signal";
import { workingDays } from "../drift/streams";

/** One site with its dry yield alone. */
export function site(
  number: number,
  points: readonly DayPoint[],
  declared: readonly DeclaredChange[] = [],
): SiteWatched {
  const name = { site: number, method: "sand-pan", measure: "dry-yield" } as const;
  return { site: number, record: [], streams: [{ name, series: seriesOf(points).series, declared }] };
}

/** Eight sites over half a year from 2 January 2031 on; the first dries 15 % more out of the same from 12 May 2031 on. */
export const STEP = { site: 1, from: "2031-05-12", at: 111, times: 1.15 };
export const calm = (number: number) => site(number, workingDays(number, 150));
export const stepped = workingDays(1, 150, STEP);

export function programme(first: SiteWatched = site(STEP.site, stepped)): SiteWatched[] {
  return [first, ...[2, 3, 4, 5, 6, 7, 8].map(calm)];
}

/** An order over the whole half year, on top of what earlier plans recorded. */
export function order(sites: readonly SiteWatched[], said: Partial<WatchOrder> = {}): WatchOrder {
  return {
    edition: "test",
    knownSize: 10,
    today: "2031-07-20",
    sites,
    answers: [],
    from: "2031-01",
    to: "2031-06",
    sayFrom: "2031-01",
    signals: [],
    months: [],
    streams: [],
    accepted: {},
    ...said,
  };
}

/** What the tables hold after some plans were recorded one after the other. */
export function recorded(...plans: readonly WatchRows[]): Pick<WatchOrder, "signals" | "months" | "streams"> {
  const signals = new Map(plans.flatMap((plan) => plan.signals.map((row) => [`${signalKey(row)} ${row.month}`, row])));
  const months = new Map(plans.flatMap((plan) => plan.months.map((row) => [row.month, row])));
  const streams = new Map(plans.flatMap((plan) => plan.streams.map((row) => [`${row.month} ${streamKey(row)}`, row])));
  const sorted = <T>(rows: ReadonlyMap<string, T>) =>
    [...rows].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, row]) => row);
  return { signals: sorted(signals), months: sorted(months), streams: sorted(streams) };
}

/** The rows of the step's site, the first of each signal. */
export function ofStep(rows: readonly SignalRow[]): SignalRow[] {
  return rows.filter(
    (row) => row.site === STEP.site && row.month === row.raisedOn.slice(0, 7) && row.raisedOn >= STEP.from,
  );
}

export const plan = watchPlan;
