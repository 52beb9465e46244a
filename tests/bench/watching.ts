import postgres from "postgres";
import { openStore } from "#db/client";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { watchNow } from "#server/jobs/watchNow";
import { daysBetween, daysOfMonth, weekday } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";
import { throwAway } from "../setup/postgres";
import { seeded } from "../statistics/seeded";

const SITES = 500;
const [FIRST, LAST] = ["2028-04-01", "2031-03-31"];
/** Months that sites send one after the other, each watched by itself. */
const SENT = [
  { site: "S7", month: "2031-04" },
  { site: "S8", month: "2031-04" },
  { site: "S9", month: "2031-04" },
  { site: "S7", month: "2031-04" },
] as const;
const NOW = "2031-05-03T08:00:00Z";
const KB = 1024;
const bounds = { bytes: 1000 * KB, unpackedBytes: 1000 * KB, rows: 1000, columns: 20, cellCharacters: 100, sheets: 1 };

/**
 * What it costs to watch 500 sites over three years on PostgreSQL: everything once, then after one site sent one month.
 * Goal: a month of one site at most a tenth of watching everything.
 */
export async function printWatching(): Promise<void> {
  const started = await throwAway();
  if (started === null) {
    console.log("watching what is recorded: left out, this machine has no PostgreSQL");
    return;
  }
  const store = await openStore({
    dataDir: "",
    databaseUrl: started.urls.loginUrl,
    databaseOwnerUrl: started.urls.ownerUrl,
  });
  try {
    await begin(store, () => new Date("2031-04-03T08:00:00Z"));
    const days = await fill(started.urls.superUrl);
    const all = await timed(() => watchNow(store));
    console.log(`\n${days} days of ${SITES} sites watched for the first time: ${all.toFixed(0)} ms`);
    const api = callerOf({ store, person: OPERATOR, clock: () => new Date(NOW), bounds });
    for (const [i, { site, month }] of SENT.entries()) {
      const bytes = new TextEncoder().encode(logOf(month, i));
      const sending = await timed(() => api.logs.send({ site, bytes, name: `${month}.csv` }));
      const one = await timed(() => watchNow(store));
      console.log(
        `${site} sent ${month} in ${sending.toFixed(0)} ms; watching it ${one.toFixed(0)} ms, ${((100 * one) / all).toFixed(1)} % of everything (goal 10)`,
      );
    }
  } finally {
    await store.close();
    started.stop();
  }
}

/** Sites with their facts, and for every working day the sums that sending would have kept. Answers how many days. */
async function fill(url: string): Promise<number> {
  const sql = postgres(url, { max: 1, onnotice: () => {} });
  await sql.unsafe(`insert into sites select i, 'S' || i, 1 from generate_series(1, ${SITES}) i`);
  await sql.unsafe(`insert into facts (site, kind, key, from_day, value, declared_on, ledger_index)
    select i, kind, '', '${FIRST}', value::jsonb, '${FIRST}', 1 from generate_series(1, ${SITES}) i,
    (values ('open', '{}'), ('method', '{"method":"sand-pan"}'), ('due', '{"dayOfMonth":5}'), ('numbering', '{"unique":"site"}'),
            ('schedule', '{"weekdays":[1,2,3,4,5,6],"perDay":3,"of":"batches"}')) f(kind, value)`);
  await sql.unsafe("select setseed(0.25)");
  const luck = (spread: number) => `exp(${spread} * (random() + random() + random() + random() - 2) * 1.73)`;
  await sql.unsafe(`insert into day_sums
    select site, day, 'sand-pan', measure, 3, 3, num, den, 1
    from (select site, day, 60.0 * ${luck(0.2)} as fresh, 0.3 * ${luck(0.05)} as yield, 3.0 * ${luck(0.05)} as minutes
          from generate_series(1, ${SITES}) site, generate_series(date '${FIRST}', date '${LAST}', '1 day') day
          where extract(isodow from day) < 7 and random() > 0.05) days,
    lateral (values ('here', 3.0, 3.0), ('fresh', fresh, 3.0), ('dry-yield', fresh * yield, fresh), ('pan-time', fresh, fresh * minutes)) m(measure, num, den)`);
  await sql.unsafe("vacuum analyze");
  const [counted] = await sql.unsafe<{ days: number }[]>(
    "select count(*)::int as days from day_sums where measure = 'fresh'",
  );
  await sql.end();
  return counted?.days ?? 0;
}

/** One month of a site, three loads a working day. */
function logOf(month: string, seed: number): string {
  const chance = seeded(100 + seed);
  const { from, to } = daysOfMonth(month);
  const lines = ["Date,Batch no,Fresh (kg),Dried (kg),Minutes"];
  let number = 1;
  for (const day of daysBetween(from, to)) {
    if (weekday(day) === 7) continue;
    for (let load = 0; load < 3; load++) {
      const fresh = 18 + 4 * chance.uniform();
      const dried = fresh * 0.3 * Math.exp(0.05 * chance.normal());
      lines.push([day, number++, fresh.toFixed(2), dried.toFixed(2), (60 + 3 * chance.normal()).toFixed(0)].join(","));
    }
  }
  return `${lines.join("\n")}\n`;
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}
