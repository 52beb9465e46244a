import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { ledgerHead } from "#db/queries/ledger";
import { recordTimes } from "#db/queries/signals";
import { rowsOf } from "#db/rowsOf";
import { siteDay } from "#server/jobs/siteDay";
import { planInThread } from "#server/jobs/watchInThread";
import { watchNow } from "#server/jobs/watchNow";
import type { MonthRow, SignalRow, StreamRow } from "#server/jobs/watchOrder";
import { signalKey, streamKey } from "#server/jobs/watchOrder";
import { orderOf } from "#server/jobs/watchOrderOf";
import { monthRows, signalRows, streamRows } from "#server/jobs/watchRead";
import { sitesWatched } from "#server/jobs/watchSites";
import { daysBetween, weekday } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";
import { seeded } from "../statistics/seeded";

const SITES = ["OJ", "SL", "UF", "PG", "RK", "MS", "WH"];
const MONTHS = ["2031-01", "2031-02", "2031-03", "2031-04", "2031-05"];
/** Old Jetty dries 14 % more out of the same from here on; of May, Red Kiln writes only every second day. */
const STEP = { site: "OJ", from: "2031-03-10", times: 1.14 };
const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** One month of some sites in one log; `without`: the days of a site that are still to come. */
function log(month: string, { sites = SITES, without = "" } = {}): string {
  const lines = ["Site,Date,Batch no,Fresh (kg),Dried (kg),Minutes"];
  for (const site of sites) {
    const chance = seeded(1000 * SITES.indexOf(site) + Number(month.slice(5)));
    let number = 1000 * Number(month.slice(5));
    for (const day of daysBetween(`${month}-01`, `${month}-28`)) {
      if (weekday(day) === 7) continue;
      const fresh = 19 + 3 * chance.uniform();
      const step = site === STEP.site && day >= STEP.from ? STEP.times : 1;
      const dried = fresh * 0.32 * step * Math.exp(0.03 * chance.normal());
      const minutes = 100 + 4 * chance.normal();
      const late = without === site && Number(day.slice(8)) % 2 === 0;
      if (!late) lines.push([site, day, number, fresh.toFixed(2), dried.toFixed(2), minutes.toFixed(0)].join(","));
      number++;
    }
  }
  return `${lines.join("\n")}\n`;
}

describe.each(KINDS)("signals watched again from the ledger of the %s database", (kind) => {
  let opened: Opened;
  const corridor = () => ({ store: opened.store, person: OPERATOR.id, clock: () => new Date("2031-08-01T08:00:00Z") });
  const inStore = <T>(ask: (tx: Parameters<Parameters<typeof asPerson<T>>[1]>[0]) => Promise<T>) =>
    asPerson(corridor(), ask);

  /** Logs month by month, a late half month, a declared change, an answer, another accepted number: each watched by itself. */
  beforeAll(async () => {
    opened = await freshStore(kind);
    const from = "2031-01-01";
    for (const code of SITES)
      await apiOf(opened.store, "2031-01-01T08:00:00Z").sites.open({
        code,
        declarations: [
          { kind: "open", from, value: {} },
          { kind: "method", from, value: { method: "sand-pan" } },
          { kind: "numbering", from, value: { unique: "site" } },
          { kind: "schedule", from, value: { weekdays: [1, 2, 3, 4, 5, 6], perDay: 1, of: "batches" } },
        ],
      });
    const at = (time: string) => apiOf(opened.store, `${time}T08:00:00Z`);
    const send = async (time: string, text: string) => {
      await at(time).logs.sendBySite({ bytes: bytes(text), name: `${time}.csv` });
      await watchNow(opened.store);
    };
    for (const [i, month] of MONTHS.entries())
      await send(`2031-0${i + 2}-03`, log(month, month === "2031-04" ? { without: "RK" } : {}));
    await send("2031-06-08", log("2031-04", { sites: ["RK"] }));
    await at("2031-06-09").sites.declare({
      site: "SL",
      declarations: [{ kind: "scale-step", from: "2031-04-14", value: { kg: 0.05 } }],
    });
    await watchNow(opened.store);
    const { open } = await at("2031-06-10").signals.inbox({});
    const raised = open
      .flatMap(({ signals }) => signals)
      .find(({ site, measure }) => site === STEP.site && measure === "dry-yield");
    if (raised === undefined) throw new Error("the step was not told");
    await at("2031-06-10").signals.answer({ id: raised.id, kind: "real-change", reason: "a finer sieve" });
    await watchNow(opened.store);
    await at("2031-06-11").programme.declare({
      declarations: [{ kind: "false-alarms", from: "2031-06-01", value: { perMonth: 2, reading: "on-average" } }],
    });
    await send("2031-07-03", log("2031-06"));
  }, 300_000);
  afterAll(() => opened.close());

  /** What each record of watching says it was: its index, and the size of the ledger that it looked at. */
  const watches = () =>
    inStore(async (tx) =>
      rowsOf<{ index: number; size: number }>(
        await tx.execute(
          sql`select ledger_index::int as index, max(known_size)::int as size from watched_months group by 1 order by 1`,
        ),
      ),
    );

  /** What one record added. */
  const recordedBy = (index: number) =>
    inStore(async (tx) => ({
      signals: added(
        await signalRows(tx, "0001-01-01", "9999-12-31", null, index),
        await signalRows(tx, "0001-01-01", "9999-12-31", null, index - 1),
        signalName,
      ),
      months: added(
        await monthRows(tx, "0001-01", "9999-12", index),
        await monthRows(tx, "0001-01", "9999-12", index - 1),
        ({ month }) => month,
      ),
      streams: added(
        await streamRows(tx, "0001-01", "9999-12", index),
        await streamRows(tx, "0001-01", "9999-12", index - 1),
        streamName,
      ),
    }));

  test("at every size of the ledger that was watched, all months looked at again say what was recorded then, and nothing else", async () => {
    const all = await watches();
    expect(all.length).toBeGreaterThanOrEqual(8);
    let told = 0;
    for (const { index, size } of all) {
      const time = (await inStore((tx) => recordTimes(tx, [size]))).get(size)!;
      const order = await orderOf(corridor(), size, siteDay(new Date(time), [], 0), "0001-01", index - 1);
      const { signals, months, streams } = await planInThread(order!);
      const recorded = await recordedBy(index);
      expect(sorted(signals, signalName), `signals of record ${index}`).toEqual(recorded.signals);
      expect(sorted(streams, streamName), `series of record ${index}`).toEqual(recorded.streams);
      const differing = months.filter((row) => row.knownSize === size);
      expect(
        sorted(differing, ({ month }) => month),
        `months of record ${index}`,
      ).toEqual(recorded.months);
      told += signals.length;
    }
    expect(told).toBeGreaterThan(5);
  }, 120_000);

  test("a site that was read once and carried on from month to month is the one that is read anew", async () => {
    const { store } = opened;
    const size = await inStore(async (tx) => (await ledgerHead(tx)).size);
    // another way to the same store, of which nothing is remembered
    const [carried, anew] = [new Proxy(store, {}), new Proxy(store, {})];
    for (const last of ["2031-02", "2031-03"]) await sitesWatched(carried, last, size);
    const now = await sitesWatched(carried, "2031-07", size);
    expect(now).toEqual(await sitesWatched(anew, "2031-07", size));
    const months = now.sites[0]?.record.map(({ month, missing, owed }) => [month, missing === owed]);
    expect(months?.slice(-2)).toEqual([
      ["2031-06", false],
      ["2031-07", true],
    ]);
  });

  test("what is told at the end can be told again from the whole ledger, by the parameters of each month", async () => {
    const { differences } = await apiOf(opened.store, "2031-08-01T08:00:00Z").ledger.verify();
    expect(differences.filter(({ what }) => what === "signal")).toEqual([]);
    const held = await inStore((tx) => monthRows(tx, "0001-01", "9999-12", EVERYTHING));
    expect(new Set(held.flatMap(({ groups }) => groups.map(({ pooled }) => pooled.from)))).toEqual(
      new Set(["defaults", "streams"]),
    );
    const accepted = held.map(({ month, accepted: perMonth }) => [month, perMonth]);
    expect(accepted.slice(-3)).toEqual([
      ["2031-05", 1],
      // June was watched before the other number was accepted
      ["2031-06", 1],
      ["2031-07", 2],
    ]);
  }, 120_000);
});

const signalName = (row: SignalRow) => `${signalKey(row)} ${row.month}`;
const streamName = (row: StreamRow) => `${row.month} ${streamKey(row)}`;

function sorted<T>(rows: readonly T[], nameOf: (row: T) => string): unknown[] {
  // as the database holds it
  return [...rows].sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1)).map((row) => JSON.parse(JSON.stringify(row)));
}

/** Rows that are other than they were one record before. */
function added<T extends SignalRow | MonthRow | StreamRow>(
  now: readonly T[],
  then: readonly T[],
  nameOf: (row: T) => string,
): unknown[] {
  const before = new Map(then.map((row) => [nameOf(row), JSON.stringify(row)]));
  return sorted(
    now.filter((row) => before.get(nameOf(row)) !== JSON.stringify(row)),
    nameOf,
  );
}
