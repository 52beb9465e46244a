import { monthOf } from "#server/terms/days";
import type { Direction, Watched } from "#server/terms/signal";
import { type Finder, type Loaded, MONTHS } from "./loaded";

/** A site's own change in a measure: no part of what the sites did together. */
export function ownChange(measure: Watched, direction: Direction): Finder {
  return async (programme) =>
    (await signalsOf(programme)).flatMap(({ site, raisedOn, together, ...signal }) =>
      site !== null && !together && signal.measure === measure && signal.direction === direction
        ? [{ site, on: raisedOn, told: programme.arrived(site, monthOf(raisedOn)) }]
        : [],
    );
}

/** What the sites of a method did together; it can be read when the last log of its month is here. */
export const togetherChange: Finder = async (programme) =>
  (await signalsOf(programme)).flatMap(({ site, raisedOn }) => {
    const arrivals = programme.sites.flatMap((code) => programme.arrived(code, monthOf(raisedOn)) ?? []);
    return site === null ? [{ site, on: raisedOn, told: arrivals.sort().at(-1) ?? null }] : [];
  });

/** Every first word of a site's own change, whatever the measure. */
export const anyOwnChange: Finder = async (programme) =>
  (await signalsOf(programme)).flatMap(({ site, raisedOn, together, confirms }) =>
    site !== null && !together && confirms === null ? [{ site, on: raisedOn, told: null }] : [],
  );

export async function signalsOf({ api }: Loaded) {
  return (await api.signals.list({ from: MONTHS[0] ?? "", to: MONTHS.at(-1) ?? "" })).signals;
}
