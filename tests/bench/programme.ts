import type { ProgrammeStream } from "#server/drift/pools";
import { lifeOf } from "#server/drift/reference";
import { dayNumber, dayOf } from "#server/terms/days";
import { WATCHED } from "#server/terms/signal";
import { longChance } from "./longChance";

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
  /** streams begin anew (a declared change) after about so many days; null for never */
  readonly renewed: number | null;
}

export const FIRST_DAY = "2031-01-01";
const FIRST = dayNumber(FIRST_DAY);

/** Streams of each measure: working days of six-day weeks, a tenth of them missing, days of unequal mass. */
export function calmProgramme(habit: Habit, seed: number): ProgrammeStream[] {
  const chance = longChance(seed);
  return WATCHED.slice(0, habit.measures).flatMap((measure) =>
    Array.from({ length: habit.sites }, (_, site) => ({
      name: { site, method: "sand-pan" as const, measure },
      ...oneStream(habit, chance),
    })),
  );
}

function oneStream(habit: Habit, { uniform, normal, squares, heavy }: ReturnType<typeof longChance>) {
  const { omega, rho, tails, between, renewed } = habit;
  const luck = () => (tails === null ? normal() : heavy(tails));
  const s = 0.05 * Math.sqrt(between / squares(between));
  const until = (from: number) =>
    renewed === null ? habit.days : from + Math.round(renewed * (0.6 + 0.8 * uniform()));
  const day = new Int32Array(habit.days);
  const value = new Float64Array(habit.days);
  const mass = new Float64Array(habit.days);
  const begun: number[] = [];
  let [ends, level, last, count] = [until(0), -1.1, 0, 0];
  let lasting = luck();
  for (let i = 0; i < habit.days; i++) {
    if (i === ends) {
      // a declared change: another level, and luck that has nothing to do with that before
      begun.push(i);
      ends = until(i);
      level += 0.1 * normal();
      lasting = luck();
      last = i;
    }
    if (i % 7 === 6 || uniform() < 0.1) continue;
    const r = rho ** (i - last);
    last = i;
    lasting = r * lasting + Math.sqrt(1 - r * r) * luck();
    const weight = Math.exp(0.5 * (uniform() + uniform() - 1));
    day[count] = FIRST + i;
    mass[count] = 40 * weight;
    value[count++] = level + s * (Math.sqrt(omega) * lasting + Math.sqrt((1 - omega) / weight) * luck());
  }
  return {
    series: { day: day.subarray(0, count), value: value.subarray(0, count), mass: mass.subarray(0, count) },
    life: lifeOf(
      begun.map((i) => ({ from: dayOf(FIRST + i), what: "pan" as const })),
      [],
    ),
  };
}
