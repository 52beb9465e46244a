import { asPerson } from "#db/asPerson";
import { batchesOn } from "#db/queries/batches";
import { publicationsWithin, rowsBehind, spansRecorded } from "#db/queries/evidence";
import { fuelEntriesOf, fuelSpansOf } from "#db/queries/fuel";
import { originalsSpeaking, rowsNotCounted, type Scope } from "#db/queries/originals";
import { type Settling, settlingsOf } from "#db/queries/settled";
import { factsOf, type Site } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { sha256 } from "#server/evidence/canonical";
import { rowsOfFigures } from "#server/evidence/figureRows";
import { settledBy } from "#server/evidence/settledBy";
import { laidOut, type Table } from "#server/evidence/table";
import { columnsExplained, TABLES, type TableName } from "#server/evidence/tables";
import type { AnswerItem } from "#server/evidence/tables/answers";
import { type BatchItem, inOrderOfTables } from "#server/evidence/tables/batches";
import { cellsOf } from "#server/evidence/tables/cells";
import { type FactItem, factsTouching } from "#server/evidence/tables/facts";
import type { EntryItem } from "#server/evidence/tables/fuelEntries";
import type { OriginalItem } from "#server/evidence/tables/originals";
import { decisive } from "#server/evidence/tables/rowsNotCounted";
import { fuelReach } from "#server/measures/fuelBook";
import { daysBetween, daysOfMonth, monthsBetween } from "#server/terms/days";
import type { AsKnownOn } from "#server/terms/figure";
import type { Problem } from "#server/terms/problem";
import { slipCode } from "./arrive";
import { signalAnswerItems, signalItems } from "./evidenceSignals";
import { figuresOf } from "./figures";
import type { Corridor } from "./record";

/** Which tables somebody asks for: of some sites, of months from `from` to `to` (both in), as known on. */
export interface AskedTables {
  readonly sites: readonly Site[];
  /** everything that the person may see, with the logs of the programme */
  readonly whole: boolean;
  readonly from: string;
  readonly to: string;
  readonly known: AsKnownOn;
}

/** A reason in words; the words room is the caller's. */
export type Sentence = (reason: Problem) => string;

/**
 * A table part by part, each read in a transaction of its own, so that a long one neither fills the memory nor holds
 * the database. Nothing recorded ever changes, so the parts together are the table as of one size of the ledger.
 */
export async function* partsOf(
  corridor: Corridor,
  asked: AskedTables,
  name: TableName,
  sentence: Sentence,
): AsyncGenerator<Table> {
  const part = <T>(read: (tx: Tx) => Promise<T>) => asPerson(corridor, read);
  if (name === "columns") yield columnsExplained();
  else if (name === "originals") yield laidOut(TABLES.originals, await part((tx) => originalItems(tx, asked)));
  else if (name === "answers")
    yield laidOut(TABLES.answers, await part(async (tx) => answerItems(tx, asked, await originalItems(tx, asked))));
  else if (name === "facts") yield laidOut(TABLES.facts, await part((tx) => factItems(tx, asked)));
  else if (name === "signals") yield laidOut(TABLES.signals, await part((tx) => signalItems(tx, asked)));
  else if (name === "signal-answers") yield laidOut(TABLES[name], await part((tx) => signalAnswerItems(tx, asked)));
  else if (name === "rows-not-counted") {
    for (const original of await part((tx) => originalItems(tx, asked)))
      yield laidOut(TABLES[name], await part((tx) => rowItems(tx, asked, original, sentence)));
  } else {
    for (const site of inOrder(asked.sites)) yield* partsOfSite(part, asked, site, name);
  }
}

async function* partsOfSite(
  part: <T>(read: (tx: Tx) => Promise<T>) => Promise<T>,
  asked: AskedTables,
  site: Site,
  name: "figures" | "batches" | "cells" | "fuel-spans" | "fuel-entries" | "publications",
): AsyncGenerator<Table> {
  const { from, to, known } = asked;
  if (name === "figures") {
    yield laidOut(TABLES.figures, rowsOfFigures(await part((tx) => figuresOf(tx, site, from, to, known))));
  } else if (name === "fuel-spans") {
    yield laidOut(TABLES[name], (await part((tx) => fuelWithin(tx, asked, site))).spans);
  } else if (name === "fuel-entries") {
    const items = await part(async (tx) => entryItems(tx, asked, site, await fuelWithin(tx, asked, site)));
    yield laidOut(TABLES[name], items);
  } else if (name === "publications") {
    const published = await part((tx) => publicationsWithin(tx, site.id, scopeOf(asked)));
    const items = published.map(({ figures, ...row }) => ({ ...row, site: site.code, digest: sha256(figures) }));
    yield laidOut(TABLES.publications, items);
  } else {
    for (const month of monthsBetween(from, to)) {
      const items = await part((tx) => batchItems(tx, site, month, known.ledgerSize));
      yield name === "batches" ? laidOut(TABLES.batches, items) : laidOut(TABLES.cells, items.flatMap(cellsOf));
    }
  }
}

/** The batches of a site's month with the rows that they were read from, in the order of tables. */
export async function batchItems(tx: Tx, site: Site, month: string, size: number): Promise<BatchItem[]> {
  const { from, to } = daysOfMonth(month);
  const known = await batchesOn(tx, site.id, daysBetween(from, to), [], size);
  const behind = new Map<string, BatchItem["standings"][number][]>(known.map(({ batch }) => [batch.id, []]));
  for (const row of await rowsBehind(tx, [...behind.keys()], size))
    behind.get(row.batch)?.push({ ...row, log: slipCode(row.file) });
  return known
    .map(({ batch, ledgerIndex }) => ({
      site: site.code,
      batch,
      ledgerIndex,
      standings: behind.get(batch.id) ?? [],
    }))
    .sort(inOrderOfTables);
}

/** The logs that speak of the months, with where their rows went. */
export async function originalItems(tx: Tx, asked: AskedTables): Promise<OriginalItem[]> {
  const codes = new Map(asked.sites.map(({ id, code }) => [id, code]));
  return (await originalsSpeaking(tx, scopeOf(asked))).map((row) => ({
    ...row,
    site: row.site === null ? null : (codes.get(row.site) ?? null),
    log: slipCode(row.file),
    state: row.state ?? "counted",
  }));
}

/** What people answered to the logs; of a log of the programme only where the whole of it is asked for. */
export async function answerItems(
  tx: Tx,
  asked: AskedTables,
  originals: readonly OriginalItem[],
): Promise<AnswerItem[]> {
  const logs = originals.filter(({ site }) => asked.whole || site !== null);
  const byFile = new Map(logs.map((log) => [log.file, log]));
  const ofFile = new Map<string, Settling[]>();
  for (const settling of await settlingsOf(tx, [...byFile.keys()], asked.known.ledgerSize))
    ofFile.set(settling.file, [...(ofFile.get(settling.file) ?? []), settling]);
  const last = (settlings: readonly Settling[]) => settlings[settlings.length - 1]?.ledgerIndex ?? 0;
  return [...ofFile]
    .sort(([, a], [, b]) => last(a) - last(b))
    .flatMap(([file, settlings]) =>
      settledBy(settlings).map((answer) => ({
        ...answer,
        site: byFile.get(file)?.site ?? null,
        log: slipCode(file),
        from: answer.from === null ? null : slipCode(answer.from),
      })),
    );
}

async function rowItems(tx: Tx, asked: AskedTables, { file, log, sha256, state }: OriginalItem, sentence: Sentence) {
  const codes = new Map(asked.sites.map(({ id, code }) => [id, code]));
  return (await rowsNotCounted(tx, file, scopeOf(asked))).map((row) => ({
    ...row,
    log,
    sha256,
    state,
    site: row.site === null ? null : (codes.get(row.site) ?? null),
    sentences: decisive(row).map(sentence),
  }));
}

/** The facts that touch the months, the programme's own first. */
export async function factItems(tx: Tx, { sites, from, to, known }: AskedTables): Promise<FactItem[]> {
  const codes = new Map(sites.map(({ id, code }) => [id, code]));
  const facts = await factsOf(tx, [...codes.keys()], known.ledgerSize);
  const texts = ({ site, kind, key, from: first }: FactItem) => [site ?? "", kind, key, first].join("\n");
  return factsTouching(facts, daysOfMonth(from).from, daysOfMonth(to).to)
    .map((fact) => ({ ...fact, site: codes.get(fact.site) ?? null }))
    .sort((a, b) => order(texts(a), texts(b)) || a.ledgerIndex - b.ledgerIndex);
}

/** The spans of fuel that figures of the months can rest on, and the first day that any of them tells of. */
export async function fuelWithin(tx: Tx, { from, to, known }: AskedTables, site: Site) {
  const all = await fuelSpansOf(tx, [site.id], "0001-01-01", "9999-12-31", known.ledgerSize);
  const days = { from: daysOfMonth(from).from, to: daysOfMonth(to).to };
  const first = earliest(
    days.from,
    monthsBetween(from, to).map((month) => fuelReach(all, daysOfMonth(month)).from),
  );
  const spans = await spansRecorded(tx, site.id, first, days.to, known.ledgerSize);
  return {
    spans: spans.map((span) => ({ ...span, site: site.code })),
    first: earliest(
      first,
      spans.map((span) => span.from),
    ),
    last: days.to,
  };
}

/** What was written of fuel from the day on which the earliest of those spans begins. */
export async function entryItems(
  tx: Tx,
  { known }: AskedTables,
  site: Site,
  { first, last }: Awaited<ReturnType<typeof fuelWithin>>,
): Promise<EntryItem[]> {
  const entries = await fuelEntriesOf(tx, site.id, known.ledgerSize);
  return entries
    .filter(({ day, said }) => day <= last && (said.kind === "span" ? said.to : day) >= first)
    .map(({ file, ...entry }) => ({ ...entry, site: site.code, log: file === null ? null : slipCode(file) }));
}

export function scopeOf({ sites, whole, from, to, known }: AskedTables): Scope {
  const days = { from: daysOfMonth(from).from, to: daysOfMonth(to).to };
  return { sites: sites.map(({ id }) => id), whole, ...days, size: known.ledgerSize };
}

function earliest(day: string, others: readonly string[]): string {
  return [day, ...others].sort()[0] ?? day;
}

/** By code unit, whatever order of letters the database has. */
function inOrder(sites: readonly Site[]): Site[] {
  return [...sites].sort((a, b) => order(a.code, b.code));
}

function order(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}
