import { sql } from "drizzle-orm";
import { listed } from "../listed";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";

/** A load that a log brought, changed or spoke of last, and that was not taken back from it yet. */
export interface LoadLeft {
  readonly batch: string;
  readonly site: number;
  /** day, number and loads as it stands */
  readonly day: string;
  readonly number: string | null;
  readonly loads: number;
  /** the log put a set in its place */
  readonly inSet: boolean;
}

/** Fuel that a log wrote last. */
export interface FuelLeft {
  readonly id: string;
  readonly site: number;
  readonly day: string;
  readonly batch: string | null;
}

/** A load of a log; and whether that put a set in its place. */
export type LoadOf = Pick<LoadLeft, "batch" | "inSet">;

/** The loads that a log brought or changed. */
export async function loadsChanged(tx: Tx, file: string): Promise<LoadOf[]> {
  return rowsOf<LoadOf>(
    await tx.execute(sql`
      select batch, bool_or(reason = 'weighed-together') as "inSet" from batch_revisions
      where file = ${file} and ledger_index in (
        select ledger_index from file_states where file = ${file} and state <> 'withdrawn')
      group by batch order by batch`),
  );
}

/** The loads that a log spoke of last. */
export async function loadsSpokenOf(tx: Tx, file: string): Promise<LoadOf[]> {
  return rowsOf<LoadOf>(
    await tx.execute(sql`
      select distinct batch, false as "inSet" from (
        select batch, ledger_index, max(ledger_index) over (partition by sheet, row) as last
        from row_batches where file = ${file}) spoken
      where ledger_index = last order by batch`),
  );
}

/** Those of some loads that were not taken back from a log since a record, as they stand. */
export async function loadsLeft(tx: Tx, file: string, since: number, loads: readonly LoadOf[]): Promise<LoadLeft[]> {
  const inSet = new Map(loads.map((load) => [load.batch, load.inSet]));
  const found = rowsOf<Omit<LoadLeft, "inSet">>(
    await tx.execute(sql`
      select distinct on (b.batch) b.batch, b.site, b.day::text as day, b.number, b.loads from batch_revisions b
      where b.batch = any(array${listed([...inSet.keys()], "uuid")}) and not exists (
        select 1 from batch_revisions n
        where n.batch = b.batch and n.reason = ${`took-back ${file}`} and n.ledger_index >= ${since})
      order by b.batch, b.ledger_index desc`),
  );
  return found.map((load) => ({ ...load, inSet: inSet.get(load.batch) ?? false }));
}

/** How many loads and entries of fuel a log speaks of, in all that was counted of it at any time. */
export async function sizeOfFile(tx: Tx, file: string): Promise<{ readonly loads: number; readonly fuel: number }> {
  const [size] = rowsOf<{ loads: number; fuel: number }>(
    await tx.execute(sql`
      select (select count(distinct batch)::int from row_batches where file = ${file}) as loads,
             (select count(distinct id)::int from fuel_entries where file = ${file}) as fuel`),
  );
  return size ?? { loads: 0, fuel: 0 };
}

/** Those of some loads that are taken back from a log since a record. */
export async function loadsTaken(
  tx: Tx,
  file: string,
  since: number,
  batches: readonly string[],
): Promise<ReadonlySet<string>> {
  const found = rowsOf<{ batch: string }>(
    await tx.execute(sql`
      select distinct batch from batch_revisions
      where batch = any(array${listed(batches, "uuid")}) and reason = ${`took-back ${file}`} and ledger_index >= ${since}`),
  );
  return new Set(found.map(({ batch }) => batch));
}

/** The entries of fuel that a log ever wrote. */
export async function fuelOfFile(tx: Tx, file: string): Promise<string[]> {
  const found = rowsOf<{ id: string }>(
    await tx.execute(sql`select distinct id from fuel_entries where file = ${file} order by id`),
  );
  return found.map(({ id }) => id);
}

/** Of some entries of a log those that stand as it wrote them, or that it withdrew from what another log had written. */
export async function fuelLeft(tx: Tx, file: string, ids: readonly string[]): Promise<FuelLeft[]> {
  return rowsOf<FuelLeft>(
    await tx.execute(sql`
      with latest as (
        select distinct on (e.id) e.id, e.site, e.day, e.batch, e.file, e.withdrawn from fuel_entries e
        where e.id = any(array${listed(ids, "uuid")}) order by e.id, e.ledger_index desc)
      select l.id, l.site, l.day::text as day, l.batch from latest l
      where l.file = ${file} and (not l.withdrawn or exists (
        select 1 from fuel_entries o where o.id = l.id and o.file is distinct from l.file))`),
  );
}

/** The states in which a log was taken back, oldest first: one, or one for every part. */
export async function statesTakenBack(tx: Tx, file: string): Promise<{ ledgerIndex: number; detail: unknown }[]> {
  return rowsOf(
    await tx.execute(sql`
      select ledger_index::int as "ledgerIndex", detail from file_states
      where file = ${file} and state = 'withdrawn' order by ledger_index`),
  );
}
