import { plusDays } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import { canonical } from "../canonical";
import type { TableOf } from "../table";

export interface FactItem extends Omit<Fact, "site"> {
  /** null: declared for the whole programme */
  readonly site: string | null;
  /** rules at least one of the days asked for */
  readonly inForce: boolean;
}

export const factsTable: TableOf<FactItem> = {
  name: "facts",
  says: "What was declared for the days asked for, also where a later declaration stands in front of it.",
  columns: [
    {
      name: "site",
      kind: "text",
      unit: null,
      says: "code of the site; empty: the whole programme",
      of: ({ site }) => site,
    },
    { name: "fact", kind: "text", unit: null, says: "what is declared", of: ({ kind }) => kind },
    {
      name: "key",
      kind: "text",
      unit: null,
      says: "which container, fuel or day is meant",
      of: ({ key }) => key || null,
    },
    { name: "from", kind: "day", unit: null, says: "first day", of: ({ from }) => from },
    { name: "to", kind: "day", unit: null, says: "last day; empty: until further notice", of: ({ to }) => to },
    {
      name: "value",
      kind: "text",
      unit: null,
      says: "what it says, as JSON; empty: the declaration is taken back",
      of: ({ value }) => (value === null ? null : canonical(value)),
    },
    {
      name: "in_force",
      kind: "yes-no",
      unit: null,
      says: "it rules at least one of the days asked for",
      of: ({ inForce }) => inForce,
    },
    {
      name: "declared_on",
      kind: "day",
      unit: null,
      says: "day on which it was declared",
      of: ({ declaredOn }) => declaredOn,
    },
    {
      name: "ledger_index",
      kind: "whole",
      unit: null,
      says: "record of the declaration",
      of: ({ ledgerIndex }) => ledgerIndex,
    },
  ],
};

/**
 * The facts that cover some of the days from `from` to `to` (both in), and whether each rules at least one of them.
 *
 * Of those that cover a day the one declared last rules. Between the days on which some fact begins or ends nothing
 * changes, so only those are looked at.
 */
export function factsTouching(
  facts: readonly Fact[],
  from: string,
  to: string,
): (Fact & { readonly inForce: boolean })[] {
  const touching = facts.filter((fact) => fact.from <= to && (fact.to === null || fact.to >= from));
  return touching.map((fact) => {
    const rivals = touching.filter(
      ({ site, kind, key }) => site === fact.site && kind === fact.kind && key === fact.key,
    );
    const turns = [
      from,
      ...rivals.flatMap((rival) => [rival.from, ...(rival.to === null ? [] : [plusDays(rival.to, 1)])]),
    ];
    const rules = turns.some((day) => day >= from && day <= to && ruling(rivals, day) === fact);
    return { ...fact, inForce: rules };
  });
}

function ruling(rivals: readonly Fact[], day: string): Fact | null {
  let best: Fact | null = null;
  for (const fact of rivals) {
    if (fact.from > day || (fact.to !== null && fact.to < day)) continue;
    if (best === null || fact.ledgerIndex >= best.ledgerIndex) best = fact;
  }
  return best;
}
