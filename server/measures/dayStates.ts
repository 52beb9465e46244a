import { daysBetween, weekday } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import { openDays } from "./openDays";
import { isWithin, type Period } from "./period";

/** What became of a day. Off: not open, no working day, not yet over, or nobody declared what is owed. */
export type StateOfDay = "logged" | "closed" | "nothing-produced" | "missing" | "off";

/**
 * What became of each day of a period, in order: a day with a load is logged whatever was declared; a planned day without
 * one is missing; a day declared closed too late is still owed, and so missing.
 *
 * `today` is the site's, and itself not over; days from it on are off. Days without a schedule are never missing, since
 * nobody declared that anything was owed.
 *
 * dayStates(Mon to Sat, logged on the 1st, closed on the 2nd, 3rd a Tuesday) // logged, closed, missing
 */
export function dayStates(
  period: Period,
  facts: readonly Fact[],
  logged: readonly string[],
  today: string,
): { readonly day: string; readonly state: StateOfDay }[] {
  const days = openDays(
    period,
    facts,
    logged.filter((day) => isWithin(day, period)),
  );
  const here = new Set(logged);
  const closed = new Set(days.closed);
  const nothing = new Set(days.nothingProduced);
  const owing = new Set(days.owing);
  const stateOf = (day: string): StateOfDay => {
    if (here.has(day)) return "logged";
    if (closed.has(day)) return "closed";
    if (nothing.has(day)) return "nothing-produced";
    const schedule = owing.has(day) && day < today ? inForce(facts, "schedule", day) : null;
    return schedule?.weekdays.includes(weekday(day)) ? "missing" : "off";
  };
  return daysBetween(period.from, period.to).map((day) => ({ day, state: stateOf(day) }));
}
