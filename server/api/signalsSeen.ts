import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { allSites, factsOf } from "#db/queries/sites";
import type { Store } from "#db/store";
import type { Corridor } from "#server/jobs/record";
import { siteDay } from "#server/jobs/siteDay";
import { watchBriefly } from "#server/jobs/watchBriefly";
import { isBehind, watchNow } from "#server/jobs/watchNow";
import { type SignalKey, TOGETHER } from "#server/jobs/watchOrder";
import { METHODS } from "#server/terms/batch";
import { isDay } from "#server/terms/days";
import type { Person } from "#server/terms/person";
import { WATCHED } from "#server/terms/signal";
import { moment, unseen } from "./base";

/**
 * As of when signals are asked for, and whether to wait until what came is watched: as long as that takes, which after
 * years that came at once is minutes, unless it says `briefly`, or `not` at all.
 */
export const known = { asOf: moment.optional(), wait: z.enum(["briefly", "not"]).optional() };
type AsKnown = z.infer<z.ZodObject<typeof known>>;

/** The size of the ledger asked for and the day its last record was made, and the sites that the person may see. */
export interface Seen {
  readonly size: number;
  readonly today: string;
  /** the day on which somebody asks, where the sites are; who asks for an earlier time asks on that day */
  readonly now: string;
  /** the number of a site by its code; a site that the person may not see does not exist */
  readonly siteOf: (code: string) => number;
  /** something that came is not watched yet, so that signals are told as they were before it; never of an earlier time */
  readonly behind: boolean;
}

/**
 * Who asks for now gets what the logs that have come until now tell, as far as it is waited for; who asks for an earlier
 * time, what was told then.
 */
export async function seen({ corridor }: { readonly corridor: Corridor }, { asOf, wait }: AsKnown): Promise<Seen> {
  const behind = asOf === undefined && (await broughtUp(corridor.store, wait));
  return asPerson(corridor, async (tx) => {
    const { ledgerSize, time } = await knownOn(tx, asOf ?? null);
    const all = await allSites(tx);
    const sites = new Map(all.map(({ id, code }) => [code, id]));
    const [first] = all;
    const clock = corridor.clock();
    const here = first === undefined ? [] : await factsOf(tx, [first.id], ledgerSize);
    return {
      size: ledgerSize,
      today: (asOf ?? time ?? clock.toISOString()).slice(0, 10),
      now: asOf?.slice(0, 10) ?? siteDay(clock, here, first?.id ?? 0),
      siteOf: (code) => {
        const site = sites.get(code);
        if (site === undefined) throw unseen(`There is no site ${code}.`);
        return site;
      },
      behind,
    };
  });
}

/** Has what came watched, as far as it is waited for; answers whether something is not watched yet. */
async function broughtUp(store: Store, wait: AsKnown["wait"]): Promise<boolean> {
  if (wait === "not") return isBehind(store);
  if (wait === "briefly") return (await watchBriefly(store)) === "under-way" && isBehind(store);
  await watchNow(store);
  return false;
}

/** The signal that an address names. */
export function keyIn(id: string, siteOf: (code: string) => number, person: Person): SignalKey {
  const [code, method, measure, raisedOn, direction, ...more] = id.split(".");
  const known = METHODS.find((one) => one === method);
  const watched = WATCHED.find((one) => one === measure);
  const way = (["up", "down"] as const).find((one) => one === direction);
  const none = unseen("There is no such signal.");
  if (code === undefined || known === undefined || watched === undefined || way === undefined || more.length > 0)
    throw none;
  if (raisedOn === undefined || !isDay(raisedOn)) throw none;
  if (code === "_" && person.site !== null) throw none;
  return { site: code === "_" ? TOGETHER : siteOf(code), method: known, measure: watched, raisedOn, direction: way };
}
