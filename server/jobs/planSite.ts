import type { FuelEntry } from "#db/queries/fuel";
import type { Changes } from "#db/queries/recorded";
import type { Tx } from "#db/store";
import type { Batch } from "#server/terms/batch";
import type { Fact } from "#server/terms/facts";
import type { RowRead } from "#server/terms/row";
import { type Decided, matchSite, type SiteMatch } from "./matchSite";
import { keyOf } from "./planBatches";
import { refuel } from "./refuel";
import { resum } from "./resum";
import { membersOf } from "./setMembers";
import { fuelBefore, type TakenBack, takeBack } from "./takeBack";

export interface SitePlan extends SiteMatch {
  readonly waiting: TakenBack["waiting"];
  readonly changes: Pick<
    Changes,
    "batchRevisions" | "rowBatches" | "fuelEntries" | "daySums" | "monthSums" | "fuelSpans"
  >;
}

const NOTHING: TakenBack = { batches: new Map(), revisions: [], days: new Set(), fuel: [], waiting: [] };

/** Plans what some rows of a file mean for one site: its batches, their sums, its fuel. The site is locked already. */
export async function planSite(
  tx: Tx,
  site: number,
  file: string,
  rows: readonly RowRead[],
  arrived: string,
  facts: readonly Fact[],
  decided: Decided,
): Promise<SitePlan> {
  const match = await matchSite(tx, site, file, rows, arrived, facts, decided);
  const { batches, fuel, known } = match;
  const own = facts.filter((fact) => fact.site === site);

  // Rows that this same file brought before and that count no more, now that somebody has settled them.
  const still = new Set(batches.links.map(({ batch }) => batch));
  const noMore = [...match.spokenOf].filter(
    (batch) => !still.has(batch) && decided.before?.elsewhere.has(batch) !== true,
  );
  const parted = (await membersOf(tx, site, file, noMore)).filter((id) => !batches.out.has(id));
  const ids = [...noMore, ...parted];
  const gone = ids.length === 0 ? NOTHING : await takeBack(tx, site, file, ids, facts, { batches: ids });

  const before = new Map(known.map(({ batch }) => [batch.id, batch.day]));
  const touched = new Set(gone.days);
  const after = new Map<string, Batch | null>(gone.batches);
  for (const [id, { batch }] of batches.revised) {
    after.set(id, batch);
    touched.add(batch.day);
    const day = before.get(id);
    if (day !== undefined) touched.add(day);
  }
  for (const [id, { batch }] of batches.out) {
    after.set(id, null);
    touched.add(batch.day);
  }
  const sums = await resum(tx, site, touched, after, own, { days: match.knownDays, batches: known });
  const fuelRevised = new Map<string, FuelEntry>();
  for (const entry of gone.fuel)
    if (entry.batch !== null && gone.batches.has(entry.batch)) fuelRevised.set(entry.id, entry);
  for (const [id, entry] of fuel.revised) fuelRevised.set(id, entry);
  // what it says no more counts as another log said it before, if one did
  const unsaid = fuel.unsaid.size === 0 ? [] : await fuelBefore(tx, site, file, { ids: [...fuel.unsaid] });
  for (const entry of unsaid) fuelRevised.set(entry.id, entry);
  const saidAgain = [...fuel.revised.keys()].filter((id) => !fuel.changed.has(id));
  const fuelChanged = saidAgain.length === 0 ? fuelRevised : new Map(fuelRevised);
  for (const id of saidAgain) fuelChanged.delete(id);
  const spans =
    fuelChanged.size === 0 ? {} : await refuel(tx, site, fuelChanged, own, { made: fuel.made, known: match.knownFuel });
  const byFault = saidOfFaults(match, file, decided);
  return {
    ...match,
    waiting: gone.waiting,
    changes: {
      batchRevisions: [
        ...gone.revisions,
        ...[...batches.revised.values()].map(({ batch, file: from, reason }) => ({
          batch,
          file: from,
          withdrawn: false,
          reason: byFault.size === 0 ? reason : reason + (byFault.get(batch.id) ?? ""),
        })),
        ...[...batches.out.values()].map(({ batch, why }) => ({ batch, file, withdrawn: true, reason: why })),
      ],
      rowBatches: batches.links,
      fuelEntries: [...fuelRevised.values()],
      ...sums,
      ...spans,
    },
  };
}

/** Of batches that rows of a confirmed fault speak of: which fault, and who confirmed it. */
function saidOfFaults({ batches }: SiteMatch, file: string, { putRight }: Decided): ReadonlyMap<string, string> {
  const said = new Map<string, string>();
  if (putRight === undefined || putRight.faults.length === 0) return said;
  const codes = new Map(
    putRight.faults.flatMap(({ code, sheet, rows }) => rows.map((row) => [keyOf({ sheet, row }), code] as const)),
  );
  for (const link of batches.links) {
    const code = link.file === file ? codes.get(keyOf(link)) : undefined;
    if (code !== undefined) said.set(link.batch, `: ${code}, confirmed by ${putRight.by}`);
  }
  return said;
}
