import { sql } from "drizzle-orm";
import type { Method } from "#server/terms/batch";
import type { Direction, Watched } from "#server/terms/signal";
import type { AnswerKind } from "#server/terms/signalTold";
import { rowsOf } from "../rowsOf";
import type { signals, watchedMonths, watchedStreams } from "../schema";
import type { Tx } from "../store";

type Told<T extends { $inferSelect: object }> = Omit<T["$inferSelect"], "ledgerIndex">;
export type SignalStored = Told<typeof signals>;
export type MonthStored = Told<typeof watchedMonths>;
export type StreamStored = Told<typeof watchedStreams>;

/** Which signals: those raised from a day to a day, of one site or all that the person may see. */
export interface SignalsAsked {
  readonly from: string;
  readonly to: string;
  readonly site: number | null;
}

const SIGNAL = sql.raw(`site, method, measure, raised_on::text as "raisedOn", direction, month, state, chart,
  since::text as since, since_from::text as "sinceFrom", since_to::text as "sinceTo", date_determined as "dateDetermined",
  change, low, high, level, before, after, per_30_days as "per30Days", days_since as "daysSince", confirms::text as confirms,
  together, cost_dried_kg as "costDriedKg"`);

/** Of every signal and month the row that stands at a size of the ledger, in the order of days and months. */
export async function signalRowsOf(tx: Tx, { from, to, site }: SignalsAsked, size: number): Promise<SignalStored[]> {
  return rowsOf<SignalStored>(
    await tx.execute(sql`
      select * from (
        select distinct on (site, method, measure, raised_on, direction, month) ${SIGNAL}
        from signals
        where ledger_index <= ${size} and raised_on between ${from}::date and ${to}::date
          and (${site}::int is null or site = ${site}::int)
        order by site, method, measure, raised_on, direction, month, ledger_index desc) standing
      order by "raisedOn", site, method, measure, direction, month`),
  );
}

/** Every row ever told of one signal, in the order of its records. */
export async function revisionsOf(
  tx: Tx,
  key: {
    readonly site: number;
    readonly method: string;
    readonly measure: string;
    readonly raisedOn: string;
    readonly direction: string;
  },
  size: number,
): Promise<(SignalStored & { readonly ledgerIndex: number })[]> {
  return rowsOf(
    await tx.execute(sql`
      select ${SIGNAL}, ledger_index::int as "ledgerIndex" from signals
      where ledger_index <= ${size} and site = ${key.site} and method = ${key.method} and measure = ${key.measure}
        and raised_on = ${key.raisedOn}::date and direction = ${key.direction}
      order by ledger_index, month`),
  );
}

/** What months were held to, of some months in order, as known at a size of the ledger. */
export async function watchedMonthsOf(tx: Tx, from: string, to: string, size: number): Promise<MonthStored[]> {
  return rowsOf<MonthStored>(
    await tx.execute(sql`
      select distinct on (month) month, edition, accepted, reading, limits, groups, streams, points,
             expected_false as "expectedFalse", known_size::int as "knownSize"
      from watched_months where ledger_index <= ${size} and month between ${from} and ${to}
      order by month, ledger_index desc`),
  );
}

/** The last month that was watched; null: none was. */
export async function lastWatched(tx: Tx, size: number): Promise<string | null> {
  const [found] = rowsOf<{ month: string | null }>(
    await tx.execute(sql`select max(month) as month from watched_months where ledger_index <= ${size}`),
  );
  return found?.month ?? null;
}

/** How far streams had come at the end of some months, of all sites that the person may see. */
export async function watchedStreamsOf(tx: Tx, from: string, to: string, size: number): Promise<StreamStored[]> {
  return rowsOf<StreamStored>(
    await tx.execute(sql`
      select distinct on (month, site, method, measure) month, site, method, measure, points,
             reference_from::text as "referenceFrom", begun_by as "begunBy", learnt, unit, level, slow
      from watched_streams where ledger_index <= ${size} and month between ${from} and ${to}
      order by month, site, method, measure, ledger_index desc`),
  );
}

/** One answer, its reason by its commitment. */
export interface AnswerStored {
  readonly site: number;
  readonly method: Method;
  readonly measure: Watched;
  readonly raisedOn: string;
  readonly direction: Direction;
  readonly kind: AnswerKind;
  readonly from: string | null;
  readonly to: string | null;
  readonly days: readonly string[];
  readonly person: string;
  readonly reasonSealed: string;
  readonly ledgerIndex: number;
}

/** All answers, oldest first; a later one stands in front of an earlier one of the same signal. */
export async function answersOf(tx: Tx, site: number | null, size: number): Promise<AnswerStored[]> {
  return rowsOf<AnswerStored>(
    await tx.execute(sql`
      select site, method, measure, raised_on::text as "raisedOn", direction, kind, from_day::text as "from", to_day::text as "to",
             days, person::text as person, reason_sealed as "reasonSealed", ledger_index::int as "ledgerIndex"
      from signal_answers
      where ledger_index <= ${size} and (${site}::int is null or site = ${site}::int)
      order by ledger_index, site, method, measure, raised_on, direction`),
  );
}

/** When some records were made, by their index; of a site lead only the records of the own site are known. */
export async function recordTimes(tx: Tx, indexes: readonly number[]): Promise<Map<number, string>> {
  if (indexes.length === 0) return new Map();
  const found = rowsOf<{ index: number; at: string }>(
    await tx.execute(sql`
      select index::int as index, to_char(at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as at from ledger
      where index in (select jsonb_array_elements_text(${JSON.stringify(indexes)}::jsonb)::bigint)`),
  );
  return new Map(found.map(({ index, at }) => [index, at]));
}

/** A log that counts, with the cells of its last row and what was read from them. */
export interface LayoutFound {
  readonly site: number;
  readonly file: string;
  readonly from: string;
  readonly to: string;
  readonly cells: readonly { readonly column: string; readonly meaning: string; readonly text: string }[];
  readonly freshKg: number | null;
}

/** Logs that speak of some days of each site: those from which the batches of these days stand now. */
export async function layoutsNear(
  tx: Tx,
  asked: readonly { readonly site: number; readonly from: string; readonly to: string }[],
  size: number,
): Promise<LayoutFound[]> {
  return rowsOf<LayoutFound>(
    await tx.execute(sql`
      with asked as (select * from jsonb_to_recordset(${JSON.stringify(asked)}::jsonb) as w(site int, "from" date, "to" date)),
      logs as (
        select b.site, b.file, min(b.day) as first, max(b.day) as last
        from batch_revisions b join asked w on w.site = b.site and b.day between w."from" and w."to"
        where b.ledger_index <= ${size} and b.file is not null and not b.withdrawn
        group by b.site, b.file)
      select l.site, l.file::text as file, l.first::text as "from", l.last::text as "to", one.cells, one."freshKg"
      from logs l cross join lateral (
        select x.ledger_index, x.sheet, x.row, x.batch from row_batches x
        where x.file = l.file and x.site = l.site and x.part = 'whole' and x.ledger_index <= ${size}
        order by x.file desc, x.ledger_index desc, x.sheet desc, x.row desc limit 1) last
      cross join lateral (
        select r.cells, b.fresh_kg as "freshKg" from rows r, batch_revisions b
        where r.file = l.file and r.ledger_index = last.ledger_index and r.sheet = last.sheet and r.row = last.row
          and b.batch = last.batch and b.ledger_index = last.ledger_index) one
      order by l.site, l.first, l.file`),
  );
}

/** Logs from which the batches of some days stand, day by day. */
export async function logsOfDays(
  tx: Tx,
  site: number,
  from: string,
  to: string,
  size: number,
): Promise<Map<string, string[]>> {
  const found = rowsOf<{ day: string; file: string }>(
    await tx.execute(sql`
      select distinct day::text as day, file::text as file from (
        select distinct on (batch) day, file, withdrawn from batch_revisions
        where site = ${site} and ledger_index <= ${size}
          and batch in (select batch from batch_revisions where site = ${site} and day between ${from}::date and ${to}::date)
        order by batch, ledger_index desc) standing
      where file is not null and not withdrawn and day between ${from}::date and ${to}::date
      order by 1, 2`),
  );
  const byDay = new Map<string, string[]>();
  for (const { day, file } of found) byDay.set(day, [...(byDay.get(day) ?? []), file]);
  return byDay;
}
