import { and, asc, desc, eq, getTableColumns, gte, inArray, lte, sql } from "drizzle-orm";
import type { Fuel, FuelDeclared, FuelSpan, FuelUnit, FuelWritten, HowKnown } from "#server/terms/fuel";
import { listed } from "../listed";
import { fuelEntries, fuelSpans } from "../schema";
import type { Tx } from "../store";

/** What was written or declared about fuel: a row of a log, or a span that somebody declared. */
export type FuelSaid = FuelWritten["said"] | FuelDeclared;

export interface FuelEntry {
  readonly id: string;
  readonly site: number;
  readonly day: string;
  readonly fuel: Fuel;
  readonly batch: string | null;
  readonly said: FuelSaid;
  readonly file: string | null;
  readonly withdrawn: boolean;
}

/** Everything written about a site's fuel, as known at a size of the ledger, by day. Withdrawn entries are left out. */
export async function fuelEntriesOf(tx: Tx, site: number, size: number): Promise<FuelEntry[]> {
  const latest = await tx
    .selectDistinctOn([fuelEntries.id])
    .from(fuelEntries)
    .where(and(eq(fuelEntries.site, site), lte(fuelEntries.ledgerIndex, size)))
    .orderBy(fuelEntries.id, desc(fuelEntries.ledgerIndex));
  return latest
    .filter(({ withdrawn }) => !withdrawn)
    .map(({ ledgerIndex: _when, fuel, said, ...entry }) => ({ ...entry, fuel: fuel as Fuel, said: said as FuelSaid }))
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.id < b.id ? -1 : 1));
}

/** Fuel spans of sites that end in some days (both in), as known at a size of the ledger. */
export async function fuelSpansOf(
  tx: Tx,
  sites: readonly number[],
  from: string,
  to: string,
  size: number,
): Promise<FuelSpan[]> {
  const key = [fuelSpans.site, fuelSpans.from, fuelSpans.to, fuelSpans.fuel, fuelSpans.how, fuelSpans.unit] as const;
  const latest = await tx
    .selectDistinctOn([...key])
    .from(fuelSpans)
    .where(
      and(
        inArray(fuelSpans.site, [...sites]),
        gte(fuelSpans.to, from),
        lte(fuelSpans.to, to),
        lte(fuelSpans.ledgerIndex, size),
      ),
    )
    .orderBy(...key.map((column) => asc(column)), desc(fuelSpans.ledgerIndex));
  return latest
    .filter(({ gone }) => !gone)
    .map(({ gone: _gone, ledgerIndex: _when, fuel, how, unit, ...span }) => ({
      ...span,
      fuel: fuel as Fuel,
      how: how as HowKnown,
      unit: unit as FuelUnit,
    }));
}

/** Which entries of a file: those of some batches, or just these, which it touched. */
export type FuelWanted =
  | { readonly batches: readonly string[]; readonly ids?: never }
  | { readonly ids: readonly string[]; readonly batches?: never };

/**
 * Every revision of the entries that a file touched, as far as they are wanted, oldest first; and whether what
 * another file said is taken back: with that file, or because that was counted again and said it no more.
 */
export async function fuelHistory(
  tx: Tx,
  site: number,
  file: string,
  { batches, ids }: FuelWanted,
): Promise<{ readonly entry: FuelEntry; readonly takenBack: boolean }[]> {
  const id = fuelEntries.id;
  const ofBatches =
    batches === undefined ? sql`true` : sql`${fuelEntries.batch} = any(array${listed(batches, "uuid")})`;
  const touched =
    ids === undefined
      ? sql`${id} = any(array(select ${id} from ${fuelEntries}
          where ${fuelEntries.file} = ${file} and ${fuelEntries.site} = ${site} and ${ofBatches}))`
      : sql`${id} = any(array${listed(ids, "uuid")})`;
  // of its own entries it is not asked: of a log in many parts that would be each state of it for each
  const takenBack = sql<boolean>`case when fuel_entries.file = ${file} then false else
    fuel_entries.file in (select s.file from file_states s where s.state = 'withdrawn') or
    exists (select 1 from fuel_entries n join file_states s on s.file = fuel_entries.file and s.ledger_index = n.ledger_index
      where n.id = fuel_entries.id and n.ledger_index > fuel_entries.ledger_index and n.file <> fuel_entries.file) end`;
  const found = await tx
    .select({ ...getTableColumns(fuelEntries), takenBack })
    .from(fuelEntries)
    .where(touched)
    .orderBy(asc(fuelEntries.id), asc(fuelEntries.ledgerIndex));
  return found.map(({ ledgerIndex: _when, takenBack, fuel, said, ...entry }) => ({
    entry: { ...entry, fuel: fuel as Fuel, said: said as FuelSaid },
    takenBack,
  }));
}
