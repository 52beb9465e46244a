import { daysOfMonth, monthOf, plusMonths } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";

/** The calendar day of an instant in a site's time zone; in UTC where none was declared. */
export function siteDay(instant: Date, facts: readonly Fact[], site: number): string {
  const own = facts.filter((fact) => fact.site === site);
  const zone = inForce(own, "time-zone", instant.toISOString().slice(0, 10))?.zone ?? "UTC";
  const parts = new Intl.DateTimeFormat("en-GB", {
    timeZone: zone,
    calendar: "gregory",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
  }).formatToParts(instant);
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? "";
  return `${part("year")}-${part("month")}-${part("day")}`;
}

/** The last day on which the log of a day's month is in time; null where no day was declared. */
export function dueDay(day: string, facts: readonly Fact[], site: number): string | null {
  const due = inForce(
    facts.filter((fact) => fact.site === site || fact.site === 0),
    "due",
    daysOfMonth(monthOf(day)).to,
  );
  return due === null ? null : `${plusMonths(monthOf(day), 1)}-${String(due.dayOfMonth).padStart(2, "0")}`;
}
