import { sql } from "drizzle-orm";
import type { Role } from "#server/terms/person";
import type { Answers, Hints, Remembered } from "#server/terms/row";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";

/** A log of a site as it was last counted: its bytes, and how it was read. */
export interface CountedLog {
  readonly file: string;
  readonly ledgerIndex: number;
  readonly sha256: string;
  readonly hints: Hints;
  readonly months: readonly string[];
}

/** The logs of a site that count, those that arrived last first; one of them may be left out. */
export async function lastCounted(tx: Tx, site: number, except: string | null, most: number): Promise<CountedLog[]> {
  return rowsOf<CountedLog>(
    await tx.execute(sql`
      select f.id as file, f.sha256, s.ledger_index::int as "ledgerIndex", s.detail -> 'hints' as hints,
             coalesce(s.detail -> 'slip' -> 'months', '[]'::jsonb) as months
      from files f join lateral (
        select * from file_states t where t.file = f.id
        order by t.ledger_index desc, array_position(array['arrived', 'read', 'settled', 'counted', 'withdrawn'], t.state) desc
        limit 1) s on s.state = 'counted'
      where f.site = ${site} and f.id is distinct from ${except}::uuid
      order by f.ledger_index desc limit ${most}`),
  );
}

/** One time that a log was counted: with which answers, by whom, and when. */
export interface Settling {
  readonly file: string;
  readonly ledgerIndex: number;
  readonly answers: Answers | null;
  /** what was taken over from an earlier log, among the answers */
  readonly remembered: Remembered | null;
  readonly person: string | null;
  /** as who that person did it; null in records that do not say */
  readonly by: Role | null;
  readonly at: string | null;
}

/** Every time that some logs were counted, oldest first, as known at a size of the ledger. */
export async function settlingsOf(tx: Tx, files: readonly string[], size: number): Promise<Settling[]> {
  return rowsOf<Settling>(
    await tx.execute(sql`
      select s.file, s.ledger_index::int as "ledgerIndex", s.detail -> 'hints' -> 'answers' as answers,
             s.detail -> 'hints' -> 'remembered' as remembered, l.person, s.detail ->> 'by' as by,
             to_char(l.at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as at
      from file_states s left join ledger l on l.index = s.ledger_index
      where s.file in (select jsonb_array_elements_text(${JSON.stringify(files)}::jsonb)::uuid)
        and s.state = 'counted' and s.ledger_index <= ${size}
      order by s.ledger_index, s.file`),
  );
}
