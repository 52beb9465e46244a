import { type SQL, sql } from "drizzle-orm";
import { listed } from "../listed";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";
import type { FuelEntry } from "./fuel";

// Lists are compared with "= any(array …)": so the planner goes by the index, however large the table is.
const ENTRY = sql`e.id, e.site, e.day::text as day, e.fuel, e.batch, e.said, e.file, e.withdrawn`;
const IS_LATEST = sql`not exists (select 1 from fuel_entries n where n.id = e.id and n.ledger_index > e.ledger_index)`;
const IS_CHANGE = sql`(e.said ->> 'kind' = 'cylinder-change' and (e.said ->> 'count')::int > 0)`;
const IS_LEVEL = sql`(e.said ->> 'kind' = 'gross' and (e.said ->> 'before' is null or e.said ->> 'after' is null))`;
/** Word for word as in the index. */
const IN_CHAIN = sql`(e.said ->> 'kind' = 'cylinder-change' or (e.said ->> 'kind' = 'gross' and (e.said ->> 'before' is null or e.said ->> 'after' is null)))`;

/** Entries of a site that a log may speak of: those of some days or batches, and those that it brought itself. */
export async function fuelEntriesNear(
  tx: Tx,
  site: number,
  near: { readonly days: readonly string[]; readonly batches: readonly string[]; readonly file: string | null },
): Promise<FuelEntry[]> {
  return entries(
    tx,
    sql`e.site = ${site} and not e.withdrawn and e.id = any(array(
      select id from fuel_entries where site = ${site} and day = any(array${listed(near.days, "date")})
      union select id from fuel_entries where batch = any(array${listed(near.batches, "uuid")})
      union select id from fuel_entries where file = ${near.file}::uuid))`,
  );
}

/** Some entries as they stand; withdrawn ones are left out. */
export async function fuelEntriesById(tx: Tx, ids: readonly string[]): Promise<FuelEntry[]> {
  return entries(tx, sql`not e.withdrawn and e.id = any(array${listed(ids, "uuid")})`);
}

/** The entries of some days of a site. */
export async function fuelEntriesOn(tx: Tx, site: number, days: readonly string[]): Promise<FuelEntry[]> {
  return entries(tx, sql`e.site = ${site} and not e.withdrawn and e.day = any(array${listed(days, "date")})`);
}

/**
 * The entries of a cylinder book whose spans reach from one to the next: cylinders put on, and weights that stand alone.
 * Those from one day to another, with two changes and one weight beyond each end, where there are any.
 */
export async function fuelChain(tx: Tx, site: number, fuel: string, from: string, to: string): Promise<FuelEntry[]> {
  const book = sql`e.site = ${site} and e.fuel = ${fuel} and ${IN_CHAIN} and not e.withdrawn and ${IS_LATEST}`;
  const beyond = (which: SQL, place: number) => sql`
    (select e.day from fuel_entries e where ${book} and ${which} and e.day < ${from}::date
      group by e.day order by e.day desc offset ${place}::int limit 1)`;
  const after = (which: SQL, place: number) => sql`
    (select e.day from fuel_entries e where ${book} and ${which} and e.day > ${to}::date
      group by e.day order by e.day offset ${place}::int limit 1)`;
  return entries(
    tx,
    sql`e.site = ${site} and e.fuel = ${fuel} and ${IN_CHAIN} and not e.withdrawn
      and e.day >= least(${from}::date, ${beyond(IS_LEVEL, 0)}, coalesce(${beyond(IS_CHANGE, 1)}, ${beyond(IS_CHANGE, 0)}))
      and e.day <= greatest(${to}::date, ${after(IS_LEVEL, 0)}, coalesce(${after(IS_CHANGE, 1)}, ${after(IS_CHANGE, 0)}))`,
  );
}

async function entries(tx: Tx, which: SQL): Promise<FuelEntry[]> {
  return rowsOf<FuelEntry>(
    await tx.execute(sql`select ${ENTRY} from fuel_entries e where ${which} and ${IS_LATEST} order by e.day, e.id`),
  );
}
