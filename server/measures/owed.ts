import { sumOf } from "#server/statistics/sum";
import { weekday } from "#server/terms/days";
import { type Fact, type FactValue, inForce } from "#server/terms/facts";
import type { NoFigure } from "#server/terms/figure";
import { type Numbered, numberedSeries } from "./numberedSeries";
import { type OpenDays, openDays } from "./openDays";
import type { Period } from "./period";

/** What a site owed in a period, and how that is known. */
export interface Owed {
  /** null when nobody declared it; never what came */
  readonly count: number | null;
  readonly of: "batches" | "loads" | "days";
  readonly by: "number" | "schedule" | null;
  /** why `count` is null or 0 */
  readonly why: Extract<
    NoFigure,
    "owed-not-declared" | "not-open" | "nothing-owed" | "nothing-produced-declared"
  > | null;
  /** loads that one of `of` stands for: 1, or the planned loads of a day where days are counted */
  readonly loadsEach: number;
  readonly days: OpenDays;
  /** missing numbers of an unbroken series */
  readonly gaps: readonly number[];
}

type Schedule = FactValue<"schedule">;

/**
 * What was owed: by an unbroken series of batch numbers, else by the declared schedule, else not known.
 *
 * By schedule: Σ of the planned batches or loads over the days that owe; where a site writes one line a day, and where
 * a period mixes ways of counting, days are counted. A day that owes without a schedule in force makes it not known.
 * Never set to what came, which would make every site complete.
 *
 * owed(6 days a week, 2 batches a day, June 2031 with 25 such days, one of them closed) // 48 batches by schedule
 */
export function owed(
  period: Period,
  facts: readonly Fact[],
  numbered: readonly Numbered[],
  loggedDays: readonly string[],
): Owed {
  const days = openDays(period, facts, loggedDays);
  const schedules = days.owing.map((day) => ({ day, schedule: inForce(facts, "schedule", day) }));
  const declared = schedules.flatMap(({ day, schedule }) => (schedule ? [{ day, schedule }] : []));
  const of = countedIn(declared.map(({ schedule }) => schedule));
  const planned = declared.filter(({ day, schedule }) => schedule.weekdays.includes(weekday(day)));
  const loadsEach = of === "days" ? Math.max(1, ...planned.map(({ schedule }) => schedule.perDay)) : 1;
  const none = { by: null, loadsEach, days, gaps: [], of };
  if (days.open.length === 0) return { ...none, count: 0, why: "not-open" };
  if (days.owing.length === 0) return { ...none, count: 0, why: nothingOwed(days) };
  const series = inForce(facts, "numbering", period.to)?.unbroken ? numberedSeries(numbered, period) : null;
  if (series) {
    return { count: series.owed, of: "batches", by: "number", why: null, loadsEach: 1, days, gaps: series.gaps };
  }
  if (declared.length < schedules.length) return { ...none, count: null, why: "owed-not-declared" };
  const count = of === "days" ? planned.length : sumOf(planned, ({ schedule }) => schedule.perDay);
  return { ...none, by: "schedule", count, why: count === 0 ? "nothing-owed" : null };
}

function nothingOwed(days: OpenDays): "nothing-produced-declared" | "nothing-owed" {
  return days.nothingProduced.length > 0 ? "nothing-produced-declared" : "nothing-owed";
}

/** One way of counting for the whole period; a period that mixes them is counted in days. */
function countedIn(schedules: readonly Schedule[]): Owed["of"] {
  const [first, ...others] = [...new Set(schedules.map((schedule) => schedule.of))];
  if (first === undefined) return "batches";
  return others.length === 0 ? first : "days";
}
