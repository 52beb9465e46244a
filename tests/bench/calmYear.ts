import { expectedSignals } from "#server/drift/accepted";
import { LEARN, type PooledFrom } from "#server/drift/parameters";
import { poolsOf, quarterOf } from "#server/drift/pools";
import { placeOf } from "#server/drift/series";
import { watchMonth } from "#server/drift/watchMonth";
import { dayNumber, dayOf, daysOfMonth, monthOf, monthsBetween } from "#server/terms/days";
import { calmProgramme, FIRST_DAY, type Habit } from "./programme";

export interface Count {
  promised: number;
  came: number;
}

/** False drift signals and false questions about single days, of streams under pooled values and of those under defaults. */
export interface CalmYear {
  readonly drift: Record<PooledFrom["from"], Count>;
  readonly questions: Record<PooledFrom["from"], Count>;
}

/**
 * One programme in which nothing changes, watched month by month as in use: pooled values anew every quarter from the
 * days before it, limits every month. The first quarter has no past and therefore runs on defaults.
 */
export function calmYear(habit: Habit, seed: number): CalmYear {
  const streams = calmProgramme(habit, seed);
  const count = { drift: none(), questions: none() };
  let pools = poolsOf([], monthOf(FIRST_DAY));
  for (const month of monthsBetween(monthOf(FIRST_DAY), monthOf(dayOf(dayNumber(FIRST_DAY) + habit.days - 1)))) {
    if (quarterOf(month) === month) pools = poolsOf(streams, month);
    const watched = watchMonth(streams, month, 1, "on-average", pools);
    const [from, to] = [dayNumber(daysOfMonth(month).from), dayNumber(daysOfMonth(month).to)];
    for (const { group, references } of watched.streams) {
      const [drift, asked] = [count.drift[group.pooled.from], count.questions[group.pooled.from]];
      for (const { series, signals, questions } of references) {
        const first = placeOf(series.day, from);
        const points = placeOf(series.day, to + 1) - first;
        drift.promised += expectedSignals(watched.limits.meanPoints, [{ points, before: first - LEARN }]);
        drift.came += signals.filter(({ raisedOn }) => monthOf(raisedOn) === month).length;
        const scored = Math.max(0, first + points - Math.max(first, LEARN));
        asked.promised += scored * watched.limits.spikeChance;
        asked.came += questions.filter(({ day, score }) => score !== null && monthOf(day) === month).length;
      }
    }
  }
  return count;
}

const none = () => ({ streams: { promised: 0, came: 0 }, defaults: { promised: 0, came: 0 } });
