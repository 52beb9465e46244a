import { dayNumber, daysOfMonth, plusMonths } from "#server/terms/days";
import type { Signal, SpikeQuestion, StreamName } from "#server/terms/signal";
import { CARE, driftLimits, expectedSignals, type Limits, type Planned, plannedPoints, type Reading } from "./accepted";
import { CLAMP, LAMBDA, LEARN, LEAST_WORTH, type PooledFrom, type Rules } from "./parameters";
import { before, type Pool, type ProgrammeStream, poolsOf, scoresOfAll } from "./pools";
import { within } from "./reference";
import type { Series } from "./series";
import { FEWEST_SCORES, spikeLimit } from "./spikes";
import { type WatchedBriefly, watchStream } from "./watch";

export type { ProgrammeStream } from "./pools";

/** What the streams of one method and measure were held to in a month. Stored with what came out of it. */
export interface Group extends Pick<StreamName, "method" | "measure"> {
  readonly pooled: PooledFrom;
  readonly rules: Rules;
}

/** What the streams of a month are held to. */
export interface Held {
  readonly limits: Limits;
  readonly groups: readonly Group[];
}

export interface WatchedMonth extends Held {
  readonly month: string;
  /** raised in the month, in the order of the streams given */
  readonly signals: readonly Signal[];
  readonly questions: readonly (SpikeQuestion & StreamName)[];
  /** false drift signals to expect from the points that came in the month */
  readonly expectedFalse: number;
  /** the streams with all their days up to the end of the month */
  readonly streams: readonly {
    readonly name: StreamName;
    readonly group: Group;
    readonly references: readonly WatchedBriefly[];
  }[];
}

/**
 * A programme's streams in one month, within the false alarms accepted.
 *
 * Pooled values come from the days before the month's quarter, limits from what the streams bring and how long they have
 * run, both from days before the month: so a month is always told by what was known when it began, whatever comes later.
 * Who watches the months of one quarter may work out `pools` once (`poolsOf`) and hand them in.
 */
export function watchMonth(
  streams: readonly ProgrammeStream[],
  month: string,
  accepted = 1,
  reading: Reading = "on-average",
  pools: readonly Pool[] = poolsOf(streams, month),
): WatchedMonth {
  return watchHeld(streams, month, heldTo(streams, month, accepted, reading, pools));
}

/** Limits and pooled values of a month, from the days before it. */
export function heldTo(
  streams: readonly ProgrammeStream[],
  month: string,
  accepted: number,
  reading: Reading,
  pools: readonly Pool[],
): Held {
  const limits = limitsOf(streams, month, accepted, reading);
  return { limits, groups: groupsOf(pools, limits) };
}

/** Limits of a month alone: what its streams are planned to bring, and what follows from it. */
export function limitsOf(
  streams: readonly ProgrammeStream[],
  month: string,
  accepted: number,
  reading: Reading,
): Limits {
  const from = dayNumber(daysOfMonth(month).from);
  return driftLimits(
    streams.map((stream) => plannedFor(stream, month, from)),
    accepted,
    reading,
  );
}

/** How one stream is watched, its days up to the end of a month being given. */
export type WatchOne = (stream: ProgrammeStream, group: Group) => readonly WatchedBriefly[];

const watchAnew: WatchOne = ({ series, life }, { pooled, rules }) => watchStream(series, life, pooled, rules);

/**
 * A month's streams held to limits and pooled values that are already known; each stream's group is among them.
 *
 * Who watches the same days again and again may hand in a `watchOne` that remembers what it answered.
 */
export function watchHeld(
  streams: readonly ProgrammeStream[],
  month: string,
  { limits, groups }: Held,
  watchOne: WatchOne = watchAnew,
): WatchedMonth {
  const from = dayNumber(daysOfMonth(month).from);
  const to = dayNumber(daysOfMonth(month).to);
  const watched = streams.map(({ name, series, life }) => {
    const group = groups.find((one) => one.method === name.method && one.measure === name.measure)!;
    return { name, group, references: watchOne({ name, series: before(series, to + 1), life }, group) };
  });
  const inMonth = (day: string) => day.slice(0, 7) === month;
  const came = watched.flatMap(({ references }) => references.map(({ series }) => pointsOf(series, from, to)));
  return {
    month,
    limits,
    groups,
    signals: watched.flatMap(({ name, references }) =>
      references
        .flatMap(({ signals }) => signals.filter((signal) => inMonth(signal.raisedOn)))
        .map((signal) => ({ ...name, ...signal, chart: "drift" as const })),
    ),
    questions: watched.flatMap(({ name, references }) =>
      references
        .flatMap(({ questions }) => questions.filter(({ day }) => inMonth(day)))
        .map((one) => ({ ...name, ...one })),
    ),
    expectedFalse: expectedSignals(limits.meanPoints, came),
    streams: watched,
  };
}

const NO_SCORES = new Float64Array(0);

/** Parameters and spike limit of each method and measure. */
function groupsOf(pools: readonly Pool[], { edge, spikeChance }: Limits): Group[] {
  const chance = spikeChance / CARE;
  const all = scoresOfAll(pools);
  const told = all.length < FEWEST_SCORES ? null : spikeLimit(all, chance);
  return pools.map(({ method, measure, pooled }) => {
    // nothing known of the tails: the heaviest that are reckoned with stand in
    const byDefaults = pooled.from === "defaults";
    const standIn = () => spikeLimit(NO_SCORES, chance, byDefaults ? LEAST_WORTH : pooled.worth);
    const spikeAt = byDefaults ? standIn() : (told ?? standIn());
    return { method, measure, pooled, rules: { learn: LEARN, lambda: LAMBDA, clamp: CLAMP, edge, spikeAt } };
  });
}

/**
 * What a stream brings to the month: the middle of its last three months, and how far its reference has come. A stream
 * without earlier months brings what it brought in the month itself; its number of days says nothing about their values.
 */
function plannedFor({ series, life }: ProgrammeStream, month: string, from: number): Planned {
  const points = [3, 2, 1].flatMap((back) => {
    const { from: first, to: last } = daysOfMonth(plusMonths(month, -back));
    const { points } = pointsOf(series, dayNumber(first), dayNumber(last));
    return points > 0 || back === 1 ? [points] : [];
  });
  const { to } = daysOfMonth(month);
  const planned = points.some((one) => one > 0) ? plannedPoints(points) : pointsOf(series, from, dayNumber(to)).points;
  const running = life.references.findLast((reference) => reference.from === null || reference.from <= from)!;
  return { points: planned, before: within(before(series, from), running, life.left).day.length - LEARN };
}

function pointsOf(series: Series, from: number, to: number): Planned {
  const first = before(series, from).day.length;
  return { points: before(series, to + 1).day.length - first, before: first - LEARN };
}
