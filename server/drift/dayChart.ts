import { normalBelow } from "#server/statistics/normal";
import { studentQuantile } from "#server/statistics/student";
import { dayOf } from "#server/terms/days";
import type { Pooled, Rules } from "./parameters";
import { LEARNING, SCREENED, type Scored, SPIKE } from "./score";
import { screeningRange } from "./screening";
import type { Series } from "./series";
import type { Scale } from "./watch";

/** One day as a person sees it: its value among what earlier days lead to expect. Null while nothing is expected yet. */
export interface ShownDay {
  readonly day: string;
  readonly value: number;
  readonly mass: number;
  readonly centre: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly score: number | null;
  readonly ewma: number | null;
  readonly state: "learning" | "screened" | "scored" | "spike";
}

/**
 * The day chart: a view, never a second alarm.
 *
 * Limits are wider on days of little mass and while the history is short, since they are those of the score.
 */
export function dayChart(
  series: Series,
  scored: Scored,
  pooled: Pooled,
  rules: Rules,
  scale: Scale = "ratio",
): ShownDay[] {
  const shown = (value: number) => (scale === "ratio" ? Math.exp(value) : value);
  return Array.from(series.day, (day, i) => {
    const state = scored.state[i]!;
    const expected = state > SCREENED;
    const range = expected ? dayRange(series, scored, i, pooled, rules, scale) : { low: null, high: null };
    return {
      day: dayOf(day),
      value: shown(series.value[i]!),
      mass: series.mass[i]!,
      centre: expected ? shown(scored.centre[i]!) : null,
      ...range,
      score: expected ? scored.score[i]! : null,
      ewma: expected ? scored.ewma[i]! : null,
      state: state === LEARNING ? "learning" : state === SCREENED ? "screened" : state === SPIKE ? "spike" : "scored",
    };
  });
}

/** Within these a day raises no question. */
export function dayRange(
  series: Series,
  scored: Scored,
  place: number,
  pooled: Pooled,
  rules: Rules,
  scale: Scale,
): { low: number; high: number } {
  const { centre, half } = rangeOnScale(series, scored, place, pooled, rules);
  const [low, high] = [centre - half, centre + half];
  return scale === "ratio" ? { low: Math.exp(low), high: Math.exp(high) } : { low, high };
}

function rangeOnScale(series: Series, scored: Scored, place: number, pooled: Pooled, rules: Rules) {
  const screening = scored.state[place] === SCREENED ? screeningRange(series, pooled, rules) : null;
  if (screening !== null) return { centre: screening.centre, half: screening.half(series.mass[place]!) };
  const widths = -studentQuantile(normalBelow(-rules.spikeAt), scored.degrees[place]!);
  return { centre: scored.centre[place]!, half: scored.spread[place]! * widths };
}
