import { asPerson } from "#db/asPerson";
import type { KnownBatch } from "#db/queries/batches";
import type { FuelEntry } from "#db/queries/fuel";
import { fuelEntriesById } from "#db/queries/fuelReach";
import { allSites, factsOf } from "#db/queries/sites";
import type { Difference, FuelDifference } from "#server/terms/difference";
import type { Answers, RowRead } from "#server/terms/row";
import { type AsCounted, countedBefore, partAsBefore } from "./countedBefore";
import { dayParts, ROWS_AT_ONCE, rowsAPart } from "./dayParts";
import { type Found, linksOf, told } from "./differenceTold";
import { lackingBetween } from "./lacking";
import { matchSite, type SiteMatch } from "./matchSite";
import { siteTeller } from "./planFile";
import type { Corridor } from "./record";
import { siteDay } from "./siteDay";
import { turnForOthers } from "./turnForOthers";
import { goOn, workAtHand } from "./underWay";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

interface Looked {
  readonly id: string;
  readonly site: number | null;
  readonly arrivedAt: string;
  /** it was counted before, and this is how it was read then; null where it was not or cannot be read so any more */
  readonly before: AsCounted | null;
}

/**
 * What storing a log would change in what its sites have: row by row what is new, changed and doubtful, and the batches
 * of its days that it lacks. Null where nothing of it was here, nothing is lacking and no row will wait for its load.
 * Nothing is stored by asking. A large log is looked at part by part, as it would be counted.
 */
export async function differenceOf(
  corridor: Corridor,
  file: Looked,
  reading: { readonly rows: readonly RowRead[] },
  answers: Answers | null,
): Promise<Difference | null> {
  const { sites, facts } = await asPerson(corridor, async (tx) => {
    const sites = (await allSites(tx)).filter(({ id }) => file.site === null || id === file.site);
    const ids = sites.map(({ id }) => id);
    return { sites, facts: await factsOf(tx, ids, EVERYTHING) };
  });
  const site = sites.find(({ id }) => id === file.site) ?? null;
  const siteOf = siteTeller({ site, sites, facts });
  const found: Found[] = [];
  const lacking: KnownBatch[] = [];
  const inParts = reading.rows.length > ROWS_AT_ONCE;
  const before = inParts && file.before !== null ? await countedBefore(corridor, file.id, file.before) : null;
  let same = 0;
  const work = workAtHand();
  for (const { id } of sites) {
    const ofSite = reading.rows.filter((row) => siteOf(row)?.id === id);
    const arrived = siteDay(new Date(file.arrivedAt), facts, id);
    const spoken = new Set<string>();
    const decided = { are: answers?.are ?? {}, withdraw: new Set<string>(), ...(inParts ? { inParts, spoken } : {}) };
    const whole = ofSite.length === 0 ? [] : [ofSite];
    for (const rows of inParts ? dayParts(ofSite, rowsAPart(corridor, before !== null)) : whole) {
      if (before?.areAsBefore(rows, decided.are) === true) {
        same += partAsBefore(rows).batches.same;
        await turnForOthers(work);
        continue;
      }
      const { match, fuel } = await asPerson(corridor, async (tx) => {
        const how = before === null ? decided : { ...decided, before: before.of(rows) };
        const match = await matchSite(tx, id, file.id, rows, arrived, facts, how);
        return { match, fuel: fuelChanges(match, await fuelEntriesById(tx, [...match.fuel.changed])) };
      });
      found.push({ match, rows, fuel });
      for (const { batch } of match.batches.links) spoken.add(batch);
      before?.told(rows, linksOf(file.id, match));
      goOn({}, work);
      if (inParts) await turnForOthers(work);
    }
    const brought = found.map(({ match }) => match.brought);
    const between = inParts ? await asPerson(corridor, (tx) => lackingBetween(tx, id, file.id, brought)) : [];
    for (const one of between) if (!spoken.has(one.batch.id)) lacking.push(one);
  }
  return told(found, same, lacking, file.id);
}

function fuelChanges({ fuel }: SiteMatch, known: readonly FuelEntry[]): FuelDifference[] {
  const before = new Map(known.map((entry) => [entry.id, entry]));
  return [...fuel.changed].flatMap((id) => {
    const [was, is] = [before.get(id), fuel.revised.get(id)];
    if (is === undefined) return [];
    return [{ day: is.day, fuel: is.fuel, was: was?.said ?? null, is: is.withdrawn ? null : is.said }];
  });
}
