import { batchesOn, type KnownBatch } from "#db/queries/batches";
import { fuelEntriesNear } from "#db/queries/fuelReach";
import { waitingDried } from "#db/queries/rows";
import type { Tx } from "#db/store";
import { numbersOfSet } from "#server/intake/rows/setsPlain";
import type { BatchWritten } from "#server/terms/batch";
import { dayNumber, daysBetween } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import type { PutRight } from "#server/terms/fault";
import { fuelOn, type RowRead } from "#server/terms/row";
import type { PartBefore } from "./countedBefore";
import type { Brought } from "./lacking";
import { fuelOfThese, NO_BATCHES, ofDays, saidBefore, spokenOfElsewhere, withoutBetween } from "./matchPart";
import { newId } from "./newId";
import { type BatchPlan, keyOf, planBatches } from "./planBatches";
import { type FuelPlan, planFuel } from "./planFuel";
import type { KnownFuel } from "./refuel";
import { dueDay } from "./siteDay";

const EVERYTHING = Number.MAX_SAFE_INTEGER;
/** Days between the first and the last of a log are looked at as well, unless it spans more than these. */
const SPAN_DAYS = 400;

/** What persons decided about rows and batches that only storing knows of. */
export interface Decided {
  /** what doubtful rows are, by "sheet!row": "new", "instead", or the id of a batch */
  readonly are: Readonly<Record<string, string>>;
  /** vanished batches to be withdrawn */
  readonly withdraw: ReadonlySet<string>;
  /** faults that somebody confirmed with this log, and who: what changes by them says so */
  readonly putRight?: { readonly faults: readonly PutRight[]; readonly by: string };
  /** these rows are a part of a file whose other parts are counted on their own: what vanished of days between its days is found at the end */
  readonly inParts?: boolean;
  /** batches that those other parts spoke of, where nothing of them is stored */
  readonly spoken?: ReadonlySet<string>;
  /** of a part of a file that is counted again: what its rows said when that was last counted */
  readonly before?: PartBefore;
}

/** What some rows of a file are to what a site already has. */
export interface SiteMatch {
  readonly batches: BatchPlan;
  readonly fuel: FuelPlan;
  /** every batch that was looked at, as it stood */
  readonly known: readonly KnownBatch[];
  /** the days of which every batch was */
  readonly knownDays: ReadonlySet<string>;
  readonly knownFuel: KnownFuel;
  /** batches that rows of this file spoke of before */
  readonly spokenOf: ReadonlySet<string>;
  readonly brought: Brought;
}

/** Finds what some rows of a file are to what a site already has: its batches and its fuel. Nothing is changed by it. */
export async function matchSite(
  tx: Tx,
  site: number,
  file: string,
  rows: readonly RowRead[],
  arrived: string,
  facts: readonly Fact[],
  decided: Decided,
): Promise<SiteMatch> {
  const counted = rows.filter((row) => row.fate === "counted");
  const waiting = await waitingDried(tx, site);
  const wanted = [
    ...counted.flatMap(({ batch }) => (batch === null ? [] : [batch])),
    ...waiting.map(({ batch }) => batch),
  ];
  const days = [...new Set(wanted.map(({ day }) => day))].sort();
  const own = facts.filter((fact) => fact.site === site);
  const numbering = inForce(own, "numbering", days.at(-1) ?? arrived)?.unique ?? "day";
  const numbers = numbering === "site" ? [...new Set(wanted.flatMap(namesOf))] : [];
  const knownDays = nearby(days, counted, decided.inParts !== true);
  const near = await batchesOn(tx, site, knownDays, numbers, EVERYTHING);
  const ofOtherParts = await spokenOfElsewhere(tx, file, near, decided);
  const before = await saidBefore(tx, site, file, near, decided);
  const known = [...near, ...before.elsewhere];
  const planned = planBatches({
    site,
    file,
    rows: counted,
    known,
    waiting: waiting.filter((row) => row.file !== file),
    ofOtherParts,
    links: before.links,
    saidBefore: before.said,
    takenOut: before.takenOut,
    are: decided.are,
    withdraw: decided.inParts === true ? ofDays(decided.withdraw, known, days) : decided.withdraw,
    numbering,
    inTime: onceADay((day) => arrived <= (dueDay(day, facts, site) ?? arrived)),
    methodOn: onceADay((day) => inForce(own, "method", day)?.method ?? "other"),
    newId,
  });
  const brought = broughtBy(site, file, counted, known, planned, before.links);
  const batches = decided.inParts === true ? withoutBetween(planned, known, brought) : planned;
  const foundAgain = new Set<string>();
  for (const id of batches.batchOf.values()) if (batches.revised.get(id)?.reason !== "new") foundAgain.add(id);
  const fuelDays = new Set([...counted.flatMap(fuelOn), ...(decided.before?.fuel ?? [])].map(({ day }) => day));
  const fuelNear = await fuelEntriesNear(tx, site, {
    days: [...fuelDays],
    batches: [...foundAgain, ...batches.out.keys()],
    file: decided.inParts === true ? null : file,
  });
  const fuel = planFuel({
    site,
    file,
    rows: counted,
    batchOf: (row) => batches.batchOf.get(row) ?? null,
    known: fuelOfThese(fuelNear, file, decided),
    sentAgain: new Set(
      known.flatMap(({ batch, file: from }) => (foundAgain.has(batch.id) && from !== null ? [from] : [])),
    ),
    withdrawn: new Set([...batches.out].flatMap(([id, { instead }]) => (instead === null ? [id] : []))),
    instead: new Map([...batches.out].flatMap(([id, { instead }]) => (instead === null ? [] : [[id, instead]]))),
    partly: batches.partly,
    elsewhere: decided.before?.elsewhere ?? NO_BATCHES,
    again: before.links.size > 0 || decided.before !== undefined,
    newId,
  });
  return {
    batches,
    fuel,
    known,
    knownDays: new Set(knownDays),
    knownFuel: { days: fuelDays, entries: fuelNear },
    spokenOf: new Set(before.links.values()),
    brought,
  };
}

/**
 * The days of the loads that some rows tell for the first time, and the other files of which these found something again:
 * what a row told before lacks nothing now.
 */
function broughtBy(
  site: number,
  file: string,
  rows: readonly RowRead[],
  known: readonly KnownBatch[],
  { links, out }: BatchPlan,
  before: ReadonlyMap<string, string>,
): Brought {
  const isNew = (row: { readonly sheet: string; readonly row: number }) => !before.has(keyOf(row));
  const found = new Set([...links.filter(isNew).map(({ batch }) => batch), ...out.keys()]);
  const days = rows.flatMap((row) => (row.batch === null || row.driedOnly || !isNew(row) ? [] : [row.batch.day]));
  const again = known.flatMap(({ batch, file: from }) => (found.has(batch.id) && from !== null ? [from] : []));
  return { site, days: [...new Set(days)].sort(), again: [...new Set(again)].filter((one) => one !== file) };
}

/** Asks for each day once: rows of a day follow each other. */
function onceADay<T>(answer: (day: string) => T): (day: string) => T {
  let last: { readonly day: string; readonly is: T } | null = null;
  return (day) => {
    if (last?.day !== day) last = { day, is: answer(day) };
    return last.is;
  };
}

/** The numbers that a batch goes by; of a set also those of its loads. */
function namesOf({ number }: BatchWritten): string[] {
  return number === null ? [] : [...new Set([number, ...(numbersOfSet(number) ?? [])])];
}

/**
 * The days on which batches of a log may stand: its own, those between them if wanted, and those before a dried weight,
 * which may belong to a load of the days before it.
 */
function nearby(days: readonly string[], rows: readonly RowRead[], withBetween: boolean): string[] {
  const reach = rows.some((row) => row.driedOnly) ? 7 : 0;
  const first = days[0];
  const last = days.at(-1);
  if (first === undefined || last === undefined) return [];
  const all = !withBetween || dayNumber(last) - dayNumber(first) >= SPAN_DAYS ? days : daysBetween(first, last);
  const wide = new Set(reach === 0 ? all : all.flatMap((day) => daysBefore(day, reach)));
  return [...wide].sort();
}

function daysBefore(day: string, reach: number): string[] {
  const from = new Date(Date.parse(`${day}T00:00:00Z`) - reach * 86_400_000).toISOString().slice(0, 10);
  return daysBetween(from, day);
}
