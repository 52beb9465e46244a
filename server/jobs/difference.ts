import { asPerson } from "#db/asPerson";
import type { KnownBatch } from "#db/queries/batches";
import { type FuelEntry, fuelEntriesOf } from "#db/queries/fuel";
import { allSites, factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { joinedWith } from "#server/intake/match/asOneSet";
import { mayJoin } from "#server/intake/match/mayJoin";
import { differing } from "#server/intake/match/tell";
import { type BatchWritten, inOrderOfContent } from "#server/terms/batch";
import type {
  BatchNamed,
  Difference,
  FieldChanged,
  FuelDifference,
  JoinOffered,
  Plain,
  RowDifference,
} from "#server/terms/difference";
import type { Answers, RowRead } from "#server/terms/row";
import { slipCode } from "./arrive";
import { dayParts, ROWS_AT_ONCE } from "./dayParts";
import { lackingBetween } from "./lacking";
import { matchSite, type SiteMatch } from "./matchSite";
import { keyOf } from "./planBatches";
import { siteTeller } from "./planFile";
import type { Corridor } from "./record";
import { siteDay } from "./siteDay";
import { turnForOthers } from "./turnForOthers";
import { goOn, workAtHand } from "./underWay";

const EVERYTHING = Number.MAX_SAFE_INTEGER;
/** So many rows are told one by one; the counts say how many there are. */
const MOST = 300;
/** Reckoned from other things, or no news to anybody. */
const UNTOLD: readonly (keyof BatchWritten)[] = ["driedToCome"];

interface Looked {
  readonly id: string;
  readonly site: number | null;
  readonly arrivedAt: string;
  /** it was counted before, as a whole: so it is looked at */
  readonly counted: boolean;
}

/**
 * What storing a log would change in what its sites have: row by row what is new, changed and doubtful, and the batches
 * of its days that it lacks. Null where nothing of it was here, nothing is lacking and no row will wait for its load.
 * Nothing is stored by asking. A large log that was not counted yet is looked at part by part, as it would be counted.
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
  const inParts = reading.rows.length > ROWS_AT_ONCE && !file.counted;
  const work = workAtHand();
  for (const { id } of sites) {
    const ofSite = reading.rows.filter((row) => siteOf(row)?.id === id);
    const arrived = siteDay(new Date(file.arrivedAt), facts, id);
    const spoken = new Set<string>();
    let fuelBefore: FuelBefore | null = null;
    const decided = { are: answers?.are ?? {}, withdraw: new Set<string>(), ...(inParts ? { inParts, spoken } : {}) };
    for (const rows of inParts ? dayParts(ofSite) : ofSite.length === 0 ? [] : [ofSite]) {
      const began = performance.now();
      const { match, fuel } = await asPerson(corridor, async (tx) => {
        const match = await matchSite(tx, id, file.id, rows, arrived, facts, decided);
        if (match.fuel.changed.size > 0) fuelBefore ??= await fuelNow(tx, id);
        return { match, fuel: fuelChanges(match, fuelBefore ?? NO_FUEL) };
      });
      found.push({ match, rows, fuel });
      for (const { batch } of match.batches.links) spoken.add(batch);
      goOn({}, work);
      if (inParts) await turnForOthers(corridor, performance.now() - began);
    }
    const brought = found.map(({ match }) => match.brought);
    const between = inParts ? await asPerson(corridor, (tx) => lackingBetween(tx, id, file.id, brought)) : [];
    for (const one of between) if (!spoken.has(one.batch.id)) lacking.push(one);
  }
  return told(found, lacking, file.id);
}

interface Found {
  readonly match: SiteMatch;
  readonly rows: readonly RowRead[];
  readonly fuel: readonly FuelDifference[];
}

function told(found: readonly Found[], lacking: readonly KnownBatch[], file: string): Difference | null {
  const verdicts = found.flatMap(({ match }) => [...match.batches.verdicts.values()]);
  const count = (verdict: string) => verdicts.filter((one) => one === verdict).length;
  const counts = {
    new: count("new"),
    changed: count("changed"),
    same: count("same"),
    joined: count("joined"),
    doubtful: count("doubtful") + found.reduce((sum, { match }) => sum + match.fuel.doubtful.size, 0),
    noLoad: count("no-load"),
  };
  const rows = found.flatMap(({ match, rows }) => rowDifferences(rows, match, file));
  const gone = found.flatMap(({ match }) => these(match, match.batches.vanished));
  const vanished = named([...gone, ...lacking]);
  const fuel = found.flatMap((one) => one.fuel);
  const touches = counts.changed + counts.same + counts.joined + counts.doubtful + counts.noLoad + vanished.length;
  const instead = found.some(({ match }) => match.batches.out.size > 0);
  if (touches === 0 && !instead && fuel.every(({ was }) => was === null)) return null;
  return {
    counts,
    rows: rows.sort((a, b) => ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict)).slice(0, MOST),
    fuel: fuel.filter(({ was }) => was !== null),
    vanished,
    earlier: [...new Set(found.flatMap(({ match }) => earlierOf(match, file)))].map((id) => ({
      file: id,
      code: slipCode(id),
    })),
  };
}

const ORDER: readonly string[] = ["doubtful", "changed", "joined", "new", "no-load"];

/** The rows that are told one by one, what somebody must decide first. */
function rowDifferences(rows: readonly RowRead[], match: SiteMatch, file: string): RowDifference[] {
  const { batches, fuel, known } = match;
  const linked = new Map<string, string>();
  for (const link of batches.links)
    if (link.file === file && !linked.has(keyOf(link))) linked.set(keyOf(link), link.batch);
  const before = new Map(known.map(({ batch }) => [batch.id, batch]));
  const outOf = new Map<string, string[]>();
  for (const [out, { instead }] of batches.out)
    if (instead !== null) outOf.set(instead, [...(outOf.get(instead) ?? []), out]);
  const verdictOf = (row: RowRead) =>
    fuel.doubtful.has(keyOf(row)) ? "doubtful" : (batches.verdicts.get(row) ?? "same");
  return rows
    .flatMap((row) => {
      const verdict = verdictOf(row);
      return verdict === "same" ? [] : [{ row, verdict }];
    })
    .sort((a, b) => ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict))
    .slice(0, MOST)
    .map(({ row, verdict }) => {
      const id = linked.get(keyOf(row)) ?? "";
      const [was, is] = [before.get(id), batches.revised.get(id)?.batch];
      return {
        sheet: row.sheet,
        row: row.row,
        verdict,
        batch: row.batch === null ? null : namesOf(row.batch),
        changes: was === undefined || is === undefined ? [] : changesOf(was, is),
        instead: named(these(match, outOf.get(id) ?? [])),
        mayBe: named(these(match, batches.mayBe.get(keyOf(row)) ?? [])),
        mayJoin: verdict === "no-load" ? joinsOffered(row, match) : [],
      };
    });
}

/** Loads that are here and lack the dried weight which a row brings without saying whose it is. */
function joinsOffered({ batch: written }: RowRead, { batches, known }: SiteMatch): JoinOffered[] {
  if (written?.dried == null) return [];
  const dried = written.dried.value;
  const waiting = known
    .map(({ batch }) => batches.revised.get(batch.id)?.batch ?? batch)
    .filter(({ id }) => !batches.out.has(id))
    .sort(inOrderOfContent)
    .map((batch) => ({ id: batch.id, batch }));
  return mayJoin(written, waiting).map((loads) => ({
    loads: loads.map(({ id, batch }) => ({ id, ...namesOf(batch) })),
    dryYield: dried / loads.reduce((kg, { batch }) => kg + (batch.fresh?.value ?? 0), 0),
    put: joinedWith(loads.map(({ id }) => id)),
  }));
}

function changesOf(was: BatchWritten, is: BatchWritten): FieldChanged[] {
  return differing(was, is)
    .filter((field) => !UNTOLD.includes(field))
    .map((field) => ({ field, was: plain(was[field]), is: plain(is[field]) }));
}

function plain(value: BatchWritten[keyof BatchWritten]): Plain {
  return value !== null && typeof value === "object" ? value.exact : value;
}

/** Some of the batches that are here. */
function these({ known }: Pick<SiteMatch, "known">, ids: readonly string[]): KnownBatch[] {
  const wanted = new Set(ids);
  return known.filter(({ batch }) => wanted.has(batch.id));
}

/** Batches as people tell them apart, in order of content. */
function named(batches: readonly KnownBatch[]): BatchNamed[] {
  return batches
    .map(({ batch }) => batch)
    .sort(inOrderOfContent)
    .map((batch) => ({ id: batch.id, ...namesOf(batch) }));
}

function namesOf({ day, number, pan, startMinute, loads, fresh, dried }: BatchWritten): Omit<BatchNamed, "id"> {
  return { day, number, pan, startMinute, loads, fresh: fresh?.exact ?? null, dried: dried?.exact ?? null };
}

type FuelBefore = ReadonlyMap<string, FuelEntry>;
const NO_FUEL: FuelBefore = new Map();

async function fuelNow(tx: Tx, site: number): Promise<FuelBefore> {
  return new Map((await fuelEntriesOf(tx, site, EVERYTHING)).map((entry) => [entry.id, entry]));
}

function fuelChanges({ fuel }: SiteMatch, before: FuelBefore): FuelDifference[] {
  return [...fuel.changed].flatMap((id) => {
    const [was, is] = [before.get(id), fuel.revised.get(id)];
    if (is === undefined) return [];
    return [{ day: is.day, fuel: is.fuel, was: was?.said ?? null, is: is.withdrawn ? null : is.said }];
  });
}

/** The logs that brought what this one says again, changes or lacks. */
function earlierOf({ batches, known }: SiteMatch, file: string): string[] {
  const spoken = new Set([...batches.links.map(({ batch }) => batch), ...batches.vanished, ...batches.out.keys()]);
  return known.flatMap(({ batch, file: from }) =>
    spoken.has(batch.id) && from !== null && from !== file ? [from] : [],
  );
}
