import { sql } from "drizzle-orm";
import type { Role } from "#server/terms/person";
import { listed } from "../listed";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";

/**
 * Which logs: a site's own and those of the programme that have rows of it; a site's own that were counted for a month; those of the programme; or all.
 */
export type Whose = { readonly site: number; readonly month?: string } | "programme" | "all";

/** A log as its history lists it. What the person may not see of a log of the programme is null. */
export interface SentRow {
  readonly file: string;
  readonly site: number | null;
  readonly nameSealed: string | null;
  readonly sha256: string | null;
  readonly bytes: number | null;
  readonly sentBy: string;
  readonly arrivedAt: string;
  readonly claimedAt: string | null;
  readonly cameBy: string;
  readonly ledgerIndex: number;
  readonly state: "arrived" | "read" | "settled" | "counted" | "withdrawn";
  readonly detail: unknown;
}

const TIME = 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"';

/** The latest logs before a record, newest first: as many as are asked for. */
export async function logsBefore(tx: Tx, whose: Whose, before: number, most: number): Promise<SentRow[]> {
  const ofSite = typeof whose === "object";
  const own = ofSite ? ownLogs(whose.site, whose.month) : whose === "programme" ? sql`f.site is null` : sql`true`;
  const found = rowsOf<SentRow>(
    await tx.execute(sql`
      with latest as (
        select * from files f where ${own} and f.ledger_index < ${before} order by f.ledger_index desc limit ${most})
      select f.id as file, f.site, f.name_sealed as "nameSealed", f.sha256, f.bytes, f.sent_by as "sentBy",
             to_char(f.arrived_at at time zone 'UTC', ${TIME}) as "arrivedAt", to_char(f.claimed_at at time zone 'UTC', ${TIME}) as "claimedAt",
             f.came_by as "cameBy", f.ledger_index::int as "ledgerIndex", coalesce(s.state, 'arrived') as state, s.detail
      from latest f left join lateral (
        select t.state, t.detail from file_states t where t.file = f.id
        order by t.ledger_index desc, array_position(array['arrived', 'read', 'settled', 'counted', 'withdrawn'], t.state) desc
        limit 1) s on true
      order by f.ledger_index desc`),
  );
  if (!ofSite || whose.month !== undefined) return found;
  const whole = rowsOf<SentRow>(
    await tx.execute(sql`
      select file, null as site, null as "nameSealed", null as sha256, null::int as bytes, sent_by as "sentBy",
             to_char(arrived_at at time zone 'UTC', ${TIME}) as "arrivedAt", null as "claimedAt", came_by as "cameBy",
             ledger_index::int as "ledgerIndex", state, '{}'::jsonb as detail
      from evendry_programme_logs(${whose.site}, ${before}, ${most})`),
  );
  return [...found, ...whole].sort((a, b) => b.ledgerIndex - a.ledgerIndex).slice(0, most);
}

function ownLogs(site: number, month: string | undefined) {
  if (month === undefined) return sql`f.site = ${site}`;
  return sql`f.site = ${site} and exists (select 1 from file_states m where m.file = f.id and m.state = 'counted'
    and m.detail -> 'slip' -> 'months' @> to_jsonb(${month}::text))`;
}

export interface Fates {
  readonly file: string;
  readonly rows: number;
  readonly counted: number;
  readonly held: number;
  readonly setAside: number;
  /** rows that needed an answer at some time */
  readonly everHeld: number;
}

/** The fates of the rows of some logs, as last read: of one site, or of all that the person may see. */
export async function fatesOf(tx: Tx, files: readonly string[], site: number | null): Promise<Fates[]> {
  return rowsOf<Fates>(
    await tx.execute(sql`
      with latest as (
        select r.file, (array_agg(r.fate order by r.ledger_index desc))[1] as fate, bool_or(r.fate = 'held') as once
        from rows r where r.file in ${listed(files, "uuid")} and ${ofSite(site)}
        group by r.file, r.sheet, r.row)
      select file, count(*)::int as rows, count(*) filter (where fate = 'counted')::int as counted,
             count(*) filter (where fate = 'held')::int as held, count(*) filter (where fate = 'set-aside')::int as "setAside",
             count(*) filter (where once)::int as "everHeld"
      from latest group by file`),
  );
}

export interface Settled {
  readonly file: string;
  readonly fate: "counted" | "set-aside";
  readonly person: string;
  readonly command: string;
  readonly at: string;
  readonly rows: number;
}

/** What became of rows that needed an answer: in which record they got another fate, and who wrote it. */
export async function settledRows(tx: Tx, files: readonly string[], site: number | null): Promise<Settled[]> {
  return rowsOf<Settled>(
    await tx.execute(sql`
      with told as (
        select r.file, r.sheet, r.row, r.fate, r.ledger_index,
               max(r.ledger_index) filter (where r.fate = 'held') over (partition by r.file, r.sheet, r.row) as held_at
        from rows r where r.file in ${listed(files, "uuid")} and ${ofSite(site)}),
      freed as (
        select distinct on (file, sheet, row) file, fate, ledger_index from told
        where ledger_index > held_at order by file, sheet, row, ledger_index),
      counts as (select file, fate, ledger_index, count(*)::int as rows from freed group by file, fate, ledger_index)
      select c.file, c.fate, l.person, l.command, to_char(l.at at time zone 'UTC', ${TIME}) as at, c.rows
      from counts c join evendry_records(array(select distinct ledger_index from counts)) l on l.index = c.ledger_index
      order by c.file, c.ledger_index, c.fate`),
  );
}

function ofSite(site: number | null) {
  return site === null ? sql`true` : sql`r.site = ${site}`;
}

export interface Deed {
  readonly state: SentRow["state"];
  readonly detail: unknown;
  readonly at: string;
  readonly person: string;
  readonly command: string;
  readonly ledgerIndex: number;
}

/** Everything that became of a log, oldest first, each with who did it and when. */
export async function deedsOf(tx: Tx, file: string): Promise<Deed[]> {
  return rowsOf<Deed>(
    await tx.execute(sql`
      select s.state, s.detail, to_char(l.at at time zone 'UTC', ${TIME}) as at, l.person, l.command, s.ledger_index::int as "ledgerIndex"
      from file_states s
      join evendry_records(array(select distinct t.ledger_index from file_states t where t.file = ${file}::uuid)) l on l.index = s.ledger_index
      where s.file = ${file}::uuid
      order by s.ledger_index, array_position(array['arrived', 'read', 'settled', 'counted', 'withdrawn'], s.state)`),
  );
}

/** What some people are, and the seals of their names as far as the person may see them. */
export async function whoAre(
  tx: Tx,
  people: readonly string[],
): Promise<{ id: string; role: Role | null; nameSealed: string | null }[]> {
  return rowsOf<{ id: string; role: Role | null; nameSealed: string | null }>(
    await tx.execute(sql`
      select w.listed as id, evendry_role_of(w.listed) as role,
             (select p.name_sealed from people p where p.id = w.listed order by p.ledger_index desc limit 1) as "nameSealed"
      from ${listed(people, "uuid")} as w`),
  );
}
