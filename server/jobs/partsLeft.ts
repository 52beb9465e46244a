import type { FuelLeft, LoadLeft } from "#db/queries/left";
import { numbersOfSet } from "#server/intake/rows/setsPlain";

/** What is taken back of a site with one record: loads and entries of fuel by their ids. */
export interface PartLeft {
  readonly site: number;
  readonly batches: readonly string[];
  readonly fuel: readonly string[];
}

interface OfDay extends PartLeft {
  readonly batches: string[];
  readonly fuel: string[];
}

/**
 * What is left of a log, in parts of about so many that are taken back one after another: what a day has stays together, days of which
 * loads were weighed together as well, in the order of sites and days.
 */
export function partsLeft(loads: readonly LoadLeft[], fuel: readonly FuelLeft[], most: number): PartLeft[][] {
  const dayOf = daysTogether(loads);
  const sites = new Map<number, Map<string, OfDay>>();
  const at = (site: number, day: string): OfDay => {
    const days = sites.get(site) ?? new Map<string, OfDay>();
    const first = dayOf(site, day);
    const there = days.get(first) ?? { site, batches: [], fuel: [] };
    sites.set(site, days.set(first, there));
    return there;
  };
  const ofLoad = new Map(loads.map((load) => [load.batch, at(load.site, load.day)]));
  for (const [batch, day] of ofLoad) day.batches.push(batch);
  for (const entry of fuel) (ofLoad.get(entry.batch ?? "") ?? at(entry.site, entry.day)).fuel.push(entry.id);

  const parts: OfDay[][] = [];
  let size = Number.POSITIVE_INFINITY;
  for (const day of inOrder(sites)) {
    const more = Math.max(day.batches.length, day.fuel.length);
    if (size + more > most) {
      parts.push([]);
      size = 0;
    }
    size += more;
    const part = parts.at(-1) ?? [];
    const own = part.find(({ site }) => site === day.site);
    if (own === undefined) part.push(day);
    else {
      own.batches.push(...day.batches);
      own.fuel.push(...day.fuel);
    }
  }
  return parts;
}

function inOrder<T>(sites: ReadonlyMap<number, ReadonlyMap<string, T>>): T[] {
  return [...sites]
    .sort(([a], [b]) => a - b)
    .flatMap(([, days]) => [...days].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, day]) => day));
}

/** Names for each day the first of those that belong together: a load comes back with the set that took its place. */
function daysTogether(loads: readonly LoadLeft[]): (site: number, day: string) => string {
  const first = new Map<string, string>();
  const find = (site: number, day: string): string => {
    const before = first.size === 0 ? undefined : first.get(`${site} ${day}`);
    return before === undefined ? day : find(site, before);
  };
  const sets = new Map<string, string[]>();
  for (const { site, day, number, loads: several } of loads)
    if (several > 1)
      for (const member of numbersOfSet(number) ?? [])
        sets.set(`${site} ${member}`, [...(sets.get(`${site} ${member}`) ?? []), day]);
  for (const { site, day, number, inSet } of loads) {
    // a set stands on the day of its first load
    const of = inSet && number !== null ? (sets.get(`${site} ${number}`) ?? []).filter((one) => one <= day) : [];
    const nearest = of.sort().at(-1);
    if (nearest === undefined) continue;
    const [a = "", b = ""] = [find(site, nearest), find(site, day)].sort();
    if (a !== b) first.set(`${site} ${b}`, a);
  }
  return find;
}
