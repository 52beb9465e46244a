import { daysBetween, monthOf } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import { dueDay } from "./siteDay";

/**
 * Closings of a site that were declared after a month of theirs was due and that nobody has accepted: their days are still
 * owed. Of one first day only what was declared last; taken back ones are left out. Newest first.
 */
export function lateClosings(facts: readonly Fact[], site: number): Fact<"closed">[] {
  const last = new Map<string, Fact<"closed">>();
  for (const fact of facts)
    if (isClosing(fact) && fact.site === site) last.set(`${fact.key} ${fact.from} ${fact.to}`, fact);
  return [...last.values()]
    .filter(({ value, from, to, declaredOn }) => {
      if (value === null || value.accepted || to === null) return false;
      const months = new Set(daysBetween(from, to).map(monthOf));
      return [...months].some((month) => declaredOn > (dueDay(`${month}-01`, facts, site) ?? declaredOn));
    })
    .reverse();
}

function isClosing(fact: Fact): fact is Fact<"closed"> {
  return fact.kind === "closed";
}
