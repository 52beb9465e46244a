import { unitOf } from "#server/intake/values/masses";
import { hintsFor } from "#server/jobs/readForSite";
import type { Corridor } from "#server/jobs/record";
import type { Said } from "#server/terms/answers";
import { wrong } from "./base";

interface Asked {
  readonly period?: string | undefined;
  readonly answers?: Said | undefined;
}

/** Refuses answers that give a column a unit which nobody knows: neither ours nor a container that the site declared. */
export async function onlyKnownUnits(corridor: Corridor, site: number | null, asked: Asked): Promise<void> {
  const strange = Object.entries(asked.answers?.units ?? {}).filter(([, unit]) => unitOf(unit) === null);
  if (strange.length === 0) return;
  const declared = site === null ? {} : ((await hintsFor(corridor, site, asked.period ?? null)).containers ?? {});
  for (const [place, unit] of strange)
    if (!Object.hasOwn(declared, unit))
      throw wrong(
        `“${unit}” for column ${columnOf(place)} is no unit that is known here. Say kg, g, lb, oz or t for a weight, min or h for a time, kWh for electricity, or a container of which the site has declared what it holds.`,
      );
}

/** "C" of "June!C". */
function columnOf(place: string): string {
  return place.slice(place.lastIndexOf("!") + 1);
}
