import type { DayPoint } from "#server/drift/series";
import { plusDays, weekday } from "#server/terms/days";
import { seeded } from "../statistics/seeded";

/** A site's working days from 2 January 2031 on: kg dried of kg fresh, yield near 0.33, spread 5 %; changed by a step. */
export function workingDays(
  seed: number,
  count: number,
  step?: { readonly at: number; readonly times: number },
): DayPoint[] {
  const chance = seeded(seed);
  const points: DayPoint[] = [];
  for (let day = "2031-01-02"; points.length < count; day = plusDays(day, 1)) {
    if (weekday(day) === 7) continue;
    const denominator = 8 + 8 * chance.uniform();
    const times = step !== undefined && points.length >= step.at ? step.times : 1;
    points.push({ day, numerator: 0.33 * denominator * times * Math.exp(0.05 * chance.normal()), denominator });
  }
  return points;
}
