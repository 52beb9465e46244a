import { type Fact, inForce } from "#server/terms/facts";
import type { Answers, Hints } from "#server/terms/row";

/** What a site has declared that helps to read a log of about this day. What was not declared stays open. */
export function hintsFrom(
  facts: readonly Fact[],
  site: number,
  day: string,
  period: string | null,
  answers: Answers | null,
): Hints {
  const own = facts.filter((fact) => fact.site === site);
  const measures = inForce(own, "usual-measures", day);
  const fuelUnit = measures?.fuel ?? (measures?.mass === "kg" ? "kg" : undefined);
  const fuel = inForce(own, "main-fuel", day)?.fuel;
  const writes = inForce(own, "tally", day)?.writes;
  const usualLoad = inForce(own, "usual-load", day);
  const containers = containersOn(own, day);
  return {
    ...(period === null ? {} : { period }),
    ...(measures === null
      ? {}
      : {
          massUnit: measures.mass,
          timeUnit: measures.time,
          ...(fuelUnit === undefined ? {} : { fuelUnit }),
          ...(measures.decimalMark === undefined ? {} : { decimalMark: measures.decimalMark }),
          ...(measures.dayOrder === undefined ? {} : { dayOrder: measures.dayOrder }),
        }),
    ...(usualLoad === null ? {} : { usualFreshKg: usualLoad.freshKg }),
    ...(fuel === undefined ? {} : { fuel }),
    ...(writes === undefined ? {} : { tally: writes === "days" }),
    ...(Object.keys(containers).length === 0 ? {} : { containers }),
    ...(answers === null ? {} : { answers }),
  };
}

function containersOn(facts: readonly Fact[], day: string): Record<string, number> {
  const names = new Set(facts.filter(({ kind }) => kind === "container").map(({ key }) => key));
  return Object.fromEntries(
    [...names].flatMap((name) => {
      const weight = inForce(facts, "container", day, name);
      return weight === null ? [] : [[name, weight.kg]];
    }),
  );
}
