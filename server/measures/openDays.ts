import { daysBetween, daysOfMonth, monthOf, plusMonths } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import type { Period } from "./period";

/** Which days of a period a site owes a record for, before its schedule is asked. */
export interface OpenDays {
  /** days on which the site existed for the programme */
  readonly open: readonly string[];
  /** declared closed in time, or accepted by an officer: not owed */
  readonly closed: readonly string[];
  /** declared closed too late and not accepted: still owed, and shown as claimed */
  readonly claimed: readonly string[];
  /** days of months for which the site filed that nothing was produced */
  readonly nothingProduced: readonly string[];
  /** open and neither closed nor filed as nothing produced */
  readonly owing: readonly string[];
}

/**
 * Day by which a month's log is due; null when no due day is declared, and then nothing of it can be late.
 *
 * dueDay("2031-05", due on the 10th) // "2031-06-10"
 */
export function dueDay(month: string, facts: readonly Fact[]): string | null {
  const due = inForce(facts, "due", daysOfMonth(month).to);
  return due && `${plusMonths(month, 1)}-${String(due.dayOfMonth).padStart(2, "0")}`;
}

/**
 * Sorts the days of a period into open, closed, claimed closed and nothing produced.
 *
 * A site that never declared when it opened is taken as open: its schedule says from when it owes. A closed day counts
 * as closed only if it was declared by the due day of its month or accepted. A month filed as "nothing produced" in
 * which loads were logged all the same (`loggedDays`) is owed like any other: the filing and the log cannot both stand.
 */
export function openDays(period: Period, facts: readonly Fact[], loggedDays: readonly string[]): OpenDays {
  const opening = facts.some((fact) => fact.kind === "open");
  const open = daysBetween(period.from, period.to).filter((day) => !opening || inForce(facts, "open", day) !== null);
  const loggedMonths = new Set(loggedDays.map(monthOf));
  const closures = facts.filter((fact) => fact.kind === "closed");
  const states = open.map((day) => ({ day, closure: closureOf(day, closures, facts) }));
  const closed = states.filter((state) => state.closure === "closed").map((state) => state.day);
  const nothingProduced = open.filter(
    (day) => !loggedMonths.has(monthOf(day)) && inForce(facts, "nothing-produced", day),
  );
  const left = new Set([...closed, ...nothingProduced]);
  return {
    open,
    closed,
    claimed: states.filter((state) => state.closure === "claimed").map((state) => state.day),
    nothingProduced,
    owing: open.filter((day) => !left.has(day)),
  };
}

/** Closures are keyed by their first day; each key is asked for itself, and one that holds is enough. */
function closureOf(day: string, closures: readonly Fact[], facts: readonly Fact[]): "closed" | "claimed" | null {
  const said = closures.filter((fact) => fact.from <= day && (fact.to === null || day <= fact.to));
  if (said.length === 0) return null;
  const due = dueDay(monthOf(day), facts);
  let claimed = false;
  for (const key of new Set(said.map((fact) => fact.key))) {
    const now = inForce(said, "closed", day, key);
    if (now === null) continue;
    // the first word about a day decides whether it was in time; a later one may only change the reason
    const inTime = said.some(
      (fact) => fact.key === key && fact.value !== null && due !== null && fact.declaredOn <= due,
    );
    if (now.accepted || due === null || inTime) return "closed";
    claimed = true;
  }
  return claimed ? "claimed" : null;
}
