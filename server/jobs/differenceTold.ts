import type { KnownBatch } from "#db/queries/batches";
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
import type { RowRead } from "#server/terms/row";
import { slipCode } from "./arrive";
import type { SiteMatch } from "./matchSite";
import { keyOf } from "./planBatches";

/** So many rows are told one by one; the counts say how many there are. */
const MOST = 300;
/** So many of them ask a person something: what one answers at a time. */
const MOST_ASKED = 20;
/** Reckoned from other things, or no news to anybody. */
const UNTOLD: readonly (keyof BatchWritten)[] = ["driedToCome"];

/** Of which batches the rows of a file speak. */
export function linksOf(file: string, { batches }: SiteMatch) {
  return batches.links.filter((link) => link.file === file);
}

/** What a part of a log is to a site, and the fuel that it tells otherwise. */
export interface Found {
  readonly match: SiteMatch;
  readonly rows: readonly RowRead[];
  readonly fuel: readonly FuelDifference[];
}

/** The difference of all parts; `asBefore` loads more are the same, `lacking` ones of days that it leaves out. */
export function told(
  found: readonly Found[],
  asBefore: number,
  lacking: readonly KnownBatch[],
  file: string,
): Difference | null {
  const verdicts = found.flatMap(({ match }) => [...match.batches.verdicts.values()]);
  const count = (verdict: string) => verdicts.filter((one) => one === verdict).length;
  const counts = {
    new: count("new"),
    changed: count("changed"),
    same: count("same") + asBefore,
    joined: count("joined"),
    doubtful: count("doubtful") + found.reduce((sum, { match }) => sum + match.fuel.doubtful.size, 0),
    noLoad: count("no-load"),
  };
  const gone = found.flatMap(({ match }) => these(match, match.batches.vanished));
  const vanished = named([...gone, ...lacking]);
  const fuel = found.flatMap((one) => one.fuel);
  const touches = counts.changed + counts.same + counts.joined + counts.doubtful + counts.noLoad + vanished.length;
  const instead = found.some(({ match }) => match.batches.out.size > 0);
  if (touches === 0 && !instead && fuel.every(({ was }) => was === null)) return null;
  return {
    counts,
    rows: rowDifferences(found, file),
    fuel: fuel.filter(({ was }) => was !== null),
    vanished,
    earlier: [...new Set(found.flatMap(({ match }) => earlierOf(match, file)))].map((id) => ({
      file: id,
      code: slipCode(id),
    })),
  };
}

const ORDER: readonly RowDifference["verdict"][] = ["doubtful", "no-load", "changed", "joined", "new"];

/** The rows that are told one by one, what somebody must decide first. */
function rowDifferences(found: readonly Found[], file: string): RowDifference[] {
  const differing = found.flatMap((one) =>
    one.rows.flatMap((row) => {
      const verdict = one.match.fuel.doubtful.has(keyOf(row)) ? "doubtful" : one.match.batches.verdicts.get(row);
      return verdict === undefined || verdict === "same" ? [] : [{ row, verdict, of: one.match }];
    }),
  );
  const tellers = new Map<SiteMatch, ReturnType<typeof rowTeller>>();
  const rows: RowDifference[] = [];
  for (const wanted of ORDER) {
    let asked = 0;
    for (const { row, verdict, of } of differing) {
      if (rows.length === MOST || asked === MOST_ASKED) break;
      if (verdict !== wanted) continue;
      const tell = tellers.get(of) ?? rowTeller(of, file);
      tellers.set(of, tell);
      const one = tell(row, verdict);
      if (verdict === "doubtful" || one.mayJoin.length > 0) asked++;
      rows.push(one);
    }
  }
  return rows;
}

/** Tells what a row of a part of a log would change. */
function rowTeller(match: SiteMatch, file: string) {
  const { batches, known } = match;
  const linked = new Map<string, string>();
  for (const link of linksOf(file, match)) if (!linked.has(keyOf(link))) linked.set(keyOf(link), link.batch);
  const before = new Map(known.map(({ batch }) => [batch.id, batch]));
  const outOf = new Map<string, string[]>();
  for (const [out, { instead }] of batches.out) {
    if (instead === null) continue;
    const outs = outOf.get(instead);
    if (outs === undefined) outOf.set(instead, [out]);
    else outs.push(out);
  }
  const waiting = waitingFor(match);
  return (row: RowRead, verdict: RowDifference["verdict"]): RowDifference => {
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
      mayJoin: verdict === "no-load" ? joinsOffered(row, waiting) : [],
    };
  };
}

type Waiting = readonly { readonly id: string; readonly batch: BatchWritten }[];

/** Loads that are here, as they would be then, in the order of what they say. */
function waitingFor({ batches, known }: SiteMatch): Waiting {
  return known
    .map(({ batch }) => batches.revised.get(batch.id)?.batch ?? batch)
    .filter(({ id, fresh, dried }) => !batches.out.has(id) && fresh !== null && dried === null)
    .sort(inOrderOfContent)
    .map((batch) => ({ id: batch.id, batch }));
}

/** Loads that lack the dried weight which a row brings without saying whose it is. */
function joinsOffered({ batch: written }: RowRead, waiting: Waiting): JoinOffered[] {
  if (written?.dried == null) return [];
  const dried = written.dried.value;
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

/** The logs that brought what this one says again, changes or lacks. */
function earlierOf({ batches, known }: SiteMatch, file: string): string[] {
  const spoken = new Set([...batches.links.map(({ batch }) => batch), ...batches.vanished, ...batches.out.keys()]);
  return known.flatMap(({ batch, file: from }) =>
    spoken.has(batch.id) && from !== null && from !== file ? [from] : [],
  );
}
