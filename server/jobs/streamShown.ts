import { dayChart } from "#server/drift/dayChart";
import type { Pooled, Rules } from "#server/drift/parameters";
import { LEARN } from "#server/drift/parameters";
import { before } from "#server/drift/pools";
import { type Life, lifeOf } from "#server/drift/reference";
import type { Series } from "#server/drift/series";
import { type Raised, type Scale, type Watched, watchStream } from "#server/drift/watch";
import { mean } from "#server/statistics/moments";
import { dayNumber, dayOf, daysOfMonth, monthsBetween } from "#server/terms/days";
import type { Acknowledged, DeclaredChange } from "#server/terms/signal";
import type { PointTold, ReferenceTold } from "#server/terms/signalTold";

/** What a stream is held to. */
export interface HeldBy {
  readonly pooled: Pooled;
  readonly rules: Rules;
}

/** A stream as it is shown: its days, where its references begin, and what was answered to its signals. */
export interface Shown {
  readonly series: Series;
  readonly declared: readonly DeclaredChange[];
  readonly acknowledged: readonly Acknowledged[];
  readonly scale: Scale;
  /** what the stream was held to in a month; undefined where the month was not watched */
  readonly heldIn: (month: string) => HeldBy | undefined;
}

/**
 * The days of some months with what each was held against: every month by the parameters recorded for it, as it was told.
 *
 * Days that an answer left out are among them, with the answer's kind. Months that were not watched show values alone.
 */
export function pointsOf(shown: Shown, from: string, to: string): PointTold[] {
  const life = lifeOf(shown.declared, shown.acknowledged);
  return monthsBetween(from, to).flatMap((month) => {
    const held = shown.heldIn(month);
    const { from: first, to: last } = daysOfMonth(month);
    const known = before(shown.series, dayNumber(last) + 1);
    const scored = held === undefined ? new Map() : scoredDays(known, life, held, shown.scale);
    return daysFrom(known, dayNumber(first)).map(
      (at) => scored.get(known.day[at]!) ?? bare(known, at, shown, held === undefined ? "scored" : "left-out"),
    );
  });
}

function scoredDays(series: Series, life: Life, { pooled, rules }: HeldBy, scale: Scale): Map<number, PointTold> {
  const days = new Map<number, PointTold>();
  for (const watched of watchStream(series, life, pooled, rules, scale)) {
    const raised = new Map(watched.signals.map((one): [string, Raised] => [one.raisedOn, one]));
    for (const { ewma, state, ...day } of dayChart(watched.series, watched.scored, pooled, rules, scale)) {
      days.set(dayNumber(day.day), {
        ...day,
        ...(Number.isFinite(rules.spikeAt) ? {} : { low: null, high: null }),
        chart: ewma,
        limit: ewma === null ? null : rules.edge,
        state: state === "spike" ? "far-outside" : state,
        leftOutBy: null,
        raised: raised.get(day.day)?.direction ?? null,
        files: [],
      });
    }
  }
  return days;
}

/** Places of the days from a day number on. */
function daysFrom({ day }: Series, from: number): number[] {
  return Array.from(day.keys()).filter((at) => day[at]! >= from);
}

function bare(
  { day, value, mass }: Series,
  at: number,
  { acknowledged, scale }: Shown,
  state: PointTold["state"],
): PointTold {
  const on = dayOf(day[at]!);
  const wrong = acknowledged.some((one) => one.kind === "data-error" && one.days.includes(on));
  return {
    day: on,
    value: scale === "ratio" ? Math.exp(value[at]!) : value[at]!,
    mass: mass[at]!,
    centre: null,
    low: null,
    high: null,
    score: null,
    chart: null,
    limit: null,
    state,
    leftOutBy: state === "scored" ? null : wrong ? "data-error" : "temporary-cause",
    raised: null,
    files: [],
  };
}

/** The references of a stream up to the end of a month. */
export function referencesOf(shown: Shown, month: string): ReferenceTold[] {
  const held = shown.heldIn(month);
  if (held === undefined) return [];
  const known = before(shown.series, dayNumber(daysOfMonth(month).to) + 1);
  const life = lifeOf(shown.declared, shown.acknowledged);
  return watchStream(known, life, held.pooled, held.rules, shown.scale).map((one) => referenceTold(one, shown.scale));
}

function referenceTold({ reference, state, series, scored }: Watched, scale: Scale): ReferenceTold {
  const level = mean(series.value);
  return {
    from: reference.from === null ? null : dayOf(reference.from),
    to: reference.to === null ? null : dayOf(reference.to),
    begunBy: reference.begunBy,
    state,
    days: scored.learnt,
    learn: LEARN,
    level: scale === "ratio" ? Math.exp(level) : level,
    spread: scored.unit,
  };
}
