import { sql } from "drizzle-orm";
import { rowsOf } from "../rowsOf";
import type { Tx } from "../store";

/** The earliest day that records after an index say something of, by site; site 0: the programme. */
export async function sitesTouchedAfter(tx: Tx, index: number): Promise<Map<number, string>> {
  const found = rowsOf<{ site: number; day: string }>(
    await tx.execute(sql`
      select site, min(day)::text as day from (
        select site, min(day) as day from day_sums where ledger_index > ${index} group by site
        union all select site, min(from_day) from fuel_spans where ledger_index > ${index} group by site
        union all select site, min(from_day) from facts where ledger_index > ${index} group by site
        union all
        select a.site, min(least(a.raised_on, a.from_day, (select min(d::date) from jsonb_array_elements_text(a.days) as d)))
        from signal_answers a
        where exists (select 1 from signal_answers b where b.ledger_index > ${index} and b.site = a.site and b.method = a.method
                      and b.measure = a.measure and b.raised_on = a.raised_on and b.direction = a.direction)
        group by a.site
      ) touched group by site order by site`),
  );
  return new Map(found.map(({ site, day }) => [site, day]));
}

/** Commands whose records tell nothing of change; any other may. */
const TELL_NOTHING = ["begin", "arrive", "watch", "publish", "erase", "add-person", "end-person"];

/** Whether a record after an index may tell of change, as a log that counts does; none may before anything counts. */
export async function mayTellAfter(tx: Tx, index: number): Promise<boolean> {
  const [found] = rowsOf<{ may: boolean }>(
    await tx.execute(sql`
      select exists (select 1 from ledger where index > ${index} and command <> all(${`{${TELL_NOTHING}}`}::text[]))
         and exists (select 1 from day_sums) as may`),
  );
  return found?.may ?? false;
}

/** The size of the ledger up to which everything was watched, of what was recorded up to an index; 0: nothing was. */
export async function watchedUpTo(tx: Tx, index: number): Promise<number> {
  const [found] = rowsOf<{ size: number | null }>(
    await tx.execute(sql`select max(known_size)::int as size from watched_months where ledger_index <= ${index}`),
  );
  return found?.size ?? 0;
}
