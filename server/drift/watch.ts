import { dayOf } from "#server/terms/days";
import type { Change, SpikeQuestion } from "#server/terms/signal";
import { type Crossing, changesBehind } from "./changes";
import { dayRange } from "./dayChart";
import type { Pooled, Rules } from "./parameters";
import { type Life, type Reference, within } from "./reference";
import { SCORED, SCREENED, type Scored, SPIKE, scoreSeries } from "./score";
import type { Series } from "./series";

/** A signal without its stream's name. */
export type Raised = Change & { readonly confirms: string | null };

/** One reference of a stream, scored. */
export interface Watched {
  readonly reference: Reference;
  readonly state: "learning" | "running" | "ended";
  readonly series: Series;
  readonly scored: Scored;
  readonly signals: readonly Raised[];
  readonly questions: readonly SpikeQuestion[];
}

/** What a programme's month needs to know of a reference: little enough to be kept for many streams. */
export interface WatchedBriefly extends Omit<Watched, "scored"> {
  readonly scored: Pick<Scored, "state" | "score" | "learnt" | "unit">;
}

/** Which scale the values are on: logarithms of ratios, or as they are. */
export type Scale = "ratio" | "value";

/**
 * One stream watched through all its references.
 *
 * A pure function of the days and of the parameters given: the same days in any order of arrival, with any other streams
 * beside them, give the same scores. Signals come in the order of their days.
 */
export function watchStream(
  series: Series,
  life: Life,
  pooled: Pooled,
  rules: Rules,
  scale: Scale = "ratio",
): Watched[] {
  return life.references.flatMap((reference) => {
    const days = within(series, reference, life.left);
    if (days.day.length === 0) return [];
    const scored = scoreSeries(days, pooled, rules);
    const learnt = scored.state.some((state) => state >= SCORED);
    return [
      {
        reference,
        state: reference.to !== null ? "ended" : learnt ? "running" : "learning",
        series: days,
        scored,
        signals: signalsOf(days, changesBehind(days, scored, pooled), scale),
        questions: questionsOf(days, scored, pooled, rules, scale),
      } as const,
    ];
  });
}

function signalsOf(series: Series, crossings: readonly Crossing[], scale: Scale): Raised[] {
  const on = (place: number) => dayOf(series.day[place]!);
  const share = (effect: number) => (scale === "ratio" ? Math.expm1(effect) : effect);
  const level = (value: number) => (scale === "ratio" ? Math.exp(value) : value);
  return crossings.map(({ place, direction, change, confirms, daysSince }) => {
    const [before, after] = [level(change.before), level(change.before + change.effect)];
    let mass = 0;
    for (let i = change.place; i <= place; i++) mass += series.mass[i]!;
    const days = series.day[place]! - series.day[change.place]! + 1;
    return {
      raisedOn: on(place),
      direction,
      since: change.determined ? on(change.place) : null,
      sinceFrom: on(change.from),
      sinceTo: on(change.to),
      dateDetermined: change.determined,
      change: share(change.effect),
      low: share(change.low),
      high: share(change.high),
      level: 0.95,
      before,
      after,
      per30Days: ((after - before) * mass * 30) / days,
      daysSince,
      confirms: confirms === null ? null : on(crossings[confirms]!.place),
    };
  });
}

/** Days far outside that stand alone. Three in a row the same way are no wrong record but a new level. */
function questionsOf(series: Series, scored: Scored, pooled: Pooled, rules: Rules, scale: Scale): SpikeQuestion[] {
  const { state, score } = scored;
  const questions: SpikeQuestion[] = [];
  for (let i = 0; i < state.length; i++) {
    if (state[i] !== SCREENED && (state[i] !== SPIKE || runLengthAt(i) >= 3)) continue;
    const { low, high } = dayRange(series, scored, i, pooled, rules, scale);
    questions.push({
      day: dayOf(series.day[i]!),
      value: scale === "ratio" ? Math.exp(series.value[i]!) : series.value[i]!,
      low,
      high,
      score: state[i] === SPIKE ? score[i]! : null,
    });
  }
  return questions;

  function runLengthAt(place: number): number {
    const same = (i: number) => state[i] === SPIKE && score[i]! * score[place]! > 0;
    let [from, to] = [place, place];
    while (same(from - 1)) from--;
    while (same(to + 1)) to++;
    return to - from + 1;
  }
}
