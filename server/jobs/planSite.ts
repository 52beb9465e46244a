import { batchesOn, revisionOf } from "#db/queries/batches";
import { fuelEntriesOf } from "#db/queries/fuel";
import type { Changes } from "#db/queries/recorded";
import { linksOfFile, waitingDried } from "#db/queries/rows";
import type { Tx } from "#db/store";
import { daysBetween } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import type { RowRead } from "#server/terms/row";
import { newId } from "./newId";
import { type BatchPlan, keyOf, planBatches } from "./planBatches";
import { type FuelPlan, planFuel } from "./planFuel";
import { refuel } from "./refuel";
import { resum } from "./resum";
import { dueDay } from "./siteDay";
import { takeBack } from "./takeBack";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

export interface SitePlan {
  readonly batches: BatchPlan;
  readonly fuel: FuelPlan;
  readonly changes: Pick<
    Changes,
    "batchRevisions" | "rowBatches" | "fuelEntries" | "daySums" | "monthSums" | "fuelSpans"
  >;
}

/** Plans what some rows of a file mean for one site: its batches, their sums, its fuel. The site is locked already. */
export async function planSite(
  tx: Tx,
  site: number,
  file: string,
  rows: readonly RowRead[],
  arrived: string,
  facts: readonly Fact[],
): Promise<SitePlan> {
  const counted = rows.filter((row) => row.fate === "counted");
  const waiting = await waitingDried(tx, site);
  const wanted = [
    ...counted.flatMap(({ batch }) => (batch === null ? [] : [batch])),
    ...waiting.map(({ batch }) => batch),
  ];
  const days = [...new Set(wanted.map(({ day }) => day))].sort();
  const numbers = [...new Set(wanted.flatMap(({ number }) => number ?? []))];
  const own = facts.filter((fact) => fact.site === site);
  const numbering = inForce(own, "numbering", days.at(-1) ?? arrived)?.unique ?? "day";
  const known = await batchesOn(tx, site, nearby(days, counted), numbering === "site" ? numbers : [], EVERYTHING);
  const links = await linksOfFile(tx, file);
  const batches = planBatches({
    site,
    file,
    rows: counted,
    known,
    waiting: waiting.filter((row) => row.file !== file),
    links,
    numbering,
    inTime: (day) => arrived <= (dueDay(day, facts, site) ?? arrived),
    methodOn: (day) => inForce(own, "method", day)?.method ?? "other",
    newId,
  });
  const rowBatch = new Map(batches.links.filter((link) => link.file === file).map((link) => [keyOf(link), link.batch]));
  const fuel = planFuel(
    site,
    file,
    counted,
    (row) => rowBatch.get(keyOf(row)) ?? null,
    await fuelEntriesOf(tx, site, EVERYTHING),
    newId,
  );

  // Rows that this same file brought before and that count no more, now that somebody has settled them.
  const still = new Set(batches.links.map(({ batch }) => batch));
  const gone = await takeBack(
    tx,
    site,
    file,
    [...links.values()].filter((batch) => !still.has(batch)),
  );

  const before = new Map(known.map(({ batch }) => [batch.id, batch.day]));
  const touched = new Set([...batches.revised].flatMap(([id, { batch }]) => [batch.day, before.get(id) ?? batch.day]));
  const after = new Map([...gone.batches, ...[...batches.revised].map(([id, { batch }]) => [id, batch] as const)]);
  const sums = await resum(tx, site, new Set([...touched, ...gone.days]), after, own);
  const fuelAway = gone.fuel.filter(({ batch }) => batch !== null && gone.batches.has(batch));
  const fuelRevised = new Map([...fuelAway.map((entry) => [entry.id, entry] as const), ...fuel.revised]);
  const spans = fuelRevised.size === 0 ? {} : await refuel(tx, site, fuelRevised, own);
  return {
    batches,
    fuel,
    changes: {
      batchRevisions: [
        ...gone.revisions,
        ...[...batches.revised.values()].map(({ batch, file: from, reason }) =>
          revisionOf(batch, { file: from, withdrawn: false, reason }),
        ),
      ],
      rowBatches: batches.links.map((link) => ({ ...link, site })),
      fuelEntries: [...fuelRevised.values()],
      ...sums,
      ...spans,
    },
  };
}

/** A dried weight may belong to a load of the days before it. */
function nearby(days: readonly string[], rows: readonly RowRead[]): string[] {
  const reach = rows.some((row) => row.driedOnly) ? 7 : 0;
  const first = days[0];
  const last = days.at(-1);
  if (first === undefined || last === undefined) return [];
  if (reach === 0) return [...days];
  const wide = new Set(days.flatMap((day) => daysBefore(day, reach)));
  return [...wide].sort();
}

function daysBefore(day: string, reach: number): string[] {
  const from = new Date(Date.parse(`${day}T00:00:00Z`) - reach * 86_400_000).toISOString().slice(0, 10);
  return daysBetween(from, day);
}
