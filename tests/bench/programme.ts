import type { Series } from "#server/drift/series";
import { seeded } from "../statistics/seeded";

/** How an invented programme in which nothing changes behaves from day to day. */
export interface Habit {
  readonly name: string;
  readonly sites: number;
  readonly measures: number;
  readonly days: number;
  /** lasting part of the luck, and its correlation from one day to the next */
  readonly omega: number;
  readonly rho: number;
  /** degrees of freedom of the luck; null for normal */
  readonly tails: number | null;
  /** degrees of freedom with which sites' variances differ */
  readonly between: number;
  /** streams begin anew (a declared change) after about so many working days; null for never */
  readonly renewed: number | null;
}

const FIRST = 20_000;

/** Streams of each measure: working days of six-day weeks, a tenth of them missing, days of unequal mass. */
export function calmProgramme(habit: Habit, seed: number): Series[][] {
  const chance = seeded(seed);
  const luck = () => (habit.tails === null ? chance.normal() : chance.heavy(habit.tails));
  return Array.from({ length: habit.measures }, () =>
    Array.from({ length: habit.sites }, () => habit).flatMap(() => {
      let squares = 0;
      for (let i = 0; i < habit.between; i++) squares += chance.normal() ** 2;
      const s = 0.05 * Math.sqrt(habit.between / squares);
      const streams: Series[] = [];
      let begun = 0;
      while (begun < habit.days) {
        const ends =
          habit.renewed === null
            ? habit.days
            : Math.min(habit.days, begun + Math.round(habit.renewed * (0.6 + 0.8 * chance.uniform())));
        streams.push(oneStream(habit, chance.uniform, luck, s, begun, ends));
        begun = ends;
      }
      return streams;
    }),
  );
}

function oneStream(
  { omega, rho }: Habit,
  uniform: () => number,
  luck: () => number,
  s: number,
  from: number,
  to: number,
): Series {
  const day: number[] = [];
  const value: number[] = [];
  const mass: number[] = [];
  let lasting = luck();
  let last = from;
  for (let i = from; i < to; i++) {
    if (i % 7 === 6 || uniform() < 0.1) continue;
    const r = rho ** (i - last);
    last = i;
    lasting = r * lasting + Math.sqrt(1 - r * r) * luck();
    const weight = Math.exp(0.5 * (uniform() + uniform() - 1));
    day.push(FIRST + i);
    mass.push(40 * weight);
    value.push(-1.1 + s * (Math.sqrt(omega) * lasting + Math.sqrt((1 - omega) / weight) * luck()));
  }
  return { day: Int32Array.from(day), value: Float64Array.from(value), mass: Float64Array.from(mass) };
}

/** The days of a stream before a day, counted from the programme's first. */
export function until({ day, value, mass }: Series, end: number): Series {
  let count = day.length;
  while (count > 0 && day[count - 1]! >= FIRST + end) count--;
  return { day: day.subarray(0, count), value: value.subarray(0, count), mass: mass.subarray(0, count) };
}

export function dayInProgramme(series: Series, i: number): number {
  return series.day[i]! - FIRST;
}
