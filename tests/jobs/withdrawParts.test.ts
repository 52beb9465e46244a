import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { batchesOn } from "#db/queries/batches";
import { fuelEntriesOf } from "#db/queries/fuel";
import { allSites } from "#db/queries/sites";
import { rowsOf } from "#db/rowsOf";
import { callerOf } from "#server/api/router";
import { canonical } from "#server/evidence/canonical";
import { replay } from "#server/jobs/replay";
import { progressOf } from "#server/jobs/underWay";
import { verify } from "#server/jobs/verify";
import { OPERATOR } from "#server/terms/person";
import { BOUNDS, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const clock = () => new Date("2032-01-01T00:00:00Z");
const DAYS = 190;
const LOADS = 12;
const HEAD = "Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes,Firewood (kg),Gas (kg)";
const dayAt = (at: number) => new Date(Date.UTC(2031, 0, 1 + at)).toISOString().slice(0, 10);

/** Twelve loads a day, some with wood, and a line of gas for the whole day; `more` makes every load so much heavier. */
function log(from: number, to: number, more = 0): Uint8Array {
  const lines = [HEAD];
  for (let at = from; at < to; at++) {
    for (let load = 1; load <= LOADS; load++) {
      const fresh = (3 + ((at * 7 + load * 3) % 40) / 20 + more).toFixed(2);
      const dried = (1.1 + ((at * 5 + load) % 30) / 100).toFixed(2);
      lines.push(`${dayAt(at)},${load},1,${fresh},${dried},${70 + (load % 9)},${load > 6 ? "0.5" : ""},`);
    }
    lines.push(`${dayAt(at)},,,,,,,${(1 + (at % 7) / 10).toFixed(1)}`);
  }
  return bytes(`${lines.join("\n")}\n`);
}
const LARGE = log(0, DAYS);

describe.each(KINDS)("a large log taken back on %s", (kind) => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await freshStore(kind);
  });
  afterAll(() => opened.close());

  const api = () => callerOf({ store: opened.store, person: OPERATOR, clock, bounds: BOUNDS });
  const corridor = () => ({ store: opened.store, person: OPERATOR.id, clock });
  const intact = async () => expect((await verify(corridor(), BOUNDS)).differences).toEqual([]);

  async function withSite(code: string) {
    const declarations = [
      { kind: "open", from: "2030-01-01", value: {} },
      { kind: "method", from: "2030-01-01", value: { method: "sand-pan" } },
    ] as const;
    await api().sites.open({ code, declarations: [...declarations] });
  }
  async function sent(site: string, of = LARGE) {
    const sending = await api().logs.send({ site, bytes: of, name: "log.csv" });
    if (!("slip" in sending)) throw new Error("it was not read");
    return sending.slip.file;
  }
  const idOf = (code: string) =>
    asPerson(corridor(), async (tx) => (await allSites(tx)).find((one) => one.code === code)?.id ?? 0);

  /** The loads of a site and its fuel as they stand, and its figures, without what tells one store from another. */
  async function standing(code: string) {
    const site = await idOf(code);
    const months = await api().figures.site({ site: code, from: "2031-01", to: "2031-09" });
    const all = Array.from({ length: DAYS }, (_, at) => dayAt(at));
    return asPerson(corridor(), async (tx) => {
      const loads = await batchesOn(tx, site, all, [], Number.MAX_SAFE_INTEGER);
      const fuel = await fuelEntriesOf(tx, site, Number.MAX_SAFE_INTEGER);
      return {
        loads: loads.map(({ batch }) => canonical({ ...batch, id: "", site: 0 })).sort(),
        fuel: fuel.map(({ day, fuel, said, batch }) => canonical({ day, fuel, said, alone: batch === null })).sort(),
        figures: months.map(({ figures }) =>
          Object.entries(figures).map(([name, one]) => ({ name, ...one, asKnownOn: 0 })),
        ),
      };
    });
  }
  /** How often each load of a site was taken back from a file. */
  async function timesTaken(file: string): Promise<number[]> {
    const found = await asPerson(corridor(), async (tx) =>
      rowsOf<{ times: number }>(
        await tx.execute(
          sql`select count(*)::int as times from batch_revisions where reason = ${`took-back ${file}`} group by batch`,
        ),
      ),
    );
    return found.map(({ times }) => times);
  }
  const takenBack = (file: string) => api().logs.withdraw({ file, reason: "the wrong one" });

  async function stoppedAfterAPart(file: string) {
    const taking = takenBack(file);
    const stopped = expect(taking).rejects.toThrow("what was not yet taken back of it stays as it was");
    while ((progressOf(file, OPERATOR.id)?.rows ?? 0) === 0) await new Promise((on) => setTimeout(on, 1));
    expect(progressOf(file, OPERATOR.id)).toMatchObject({ doing: "taking-back", ofRows: DAYS * LOADS, inParts: true });
    await api().logs.stop({ file });
    await stopped;
  }

  test("leaves what others told as they told it, is one deed, and can come again", { timeout: 600_000 }, async () => {
    await withSite("IN");
    await sent("IN", log(60, 90, 0.5));
    const before = await standing("IN");
    const file = await sent("IN");
    const counted = await standing("IN");
    expect(await takenBack(file)).toEqual({ withdrawn: true });
    expect(await standing("IN")).toEqual(before);
    expect(await takenBack(file)).toEqual({ withdrawn: false });
    expect(await api().logs.file({ file })).toMatchObject({ state: "withdrawn", takenBack: null });
    const deeds = (await api().sent.deeds({ file })).map(({ deed, reason }) => [deed, reason]);
    expect(deeds.filter(([deed]) => deed?.startsWith("withdrawn"))).toEqual([["withdrawn", "the wrong one"]]);
    expect(new Set(await timesTaken(file))).toEqual(new Set([1]));
    const again = await sent("IN");
    expect(again).not.toBe(file);
    expect(await standing("IN")).toEqual(counted);
    await intact();
  });

  test("and stopped has each day wholly or not at all, cannot be counted or come again, and goes on when asked", {
    timeout: 600_000,
  }, async () => {
    await withSite("CUT");
    const file = await sent("CUT");
    const counted = await standing("CUT");
    await stoppedAfterAPart(file);
    const { state, takenBack: soFar } = await api().logs.file({ file });
    const half = await standing("CUT");
    expect([state, soFar]).toEqual(["withdrawn", { loads: DAYS * LOADS - half.loads.length, of: DAYS * LOADS }]);
    const left = new Map<string, number>();
    for (const { day } of half.loads.map((load) => JSON.parse(load) as { day: string }))
      left.set(day, (left.get(day) ?? 0) + 1);
    expect(new Set(left.values())).toEqual(new Set([LOADS]));
    expect(half.fuel).toHaveLength(left.size * (LOADS - 6 + 1));
    expect(half.loads.every((one) => counted.loads.includes(one))).toBe(true);
    expect((await api().sent.deeds({ file })).at(-1)?.deed).toBe("withdrawn-in-part");
    const months = { site: "CUT", from: "2031-01", to: "2031-07" };
    const account = await api().evidence.siteAccount(months);
    expect(account.logs).toMatchObject({ all: 1, takenBack: 0 });
    const listed = account.tables.find(({ name }) => name === "batches")?.lines;
    expect(listed).toBe(half.loads.length);
    await intact();

    await expect(api().logs.count({ file })).rejects.toThrow("Take back the rest first");
    await expect(sent("CUT")).rejects.toThrow(/Take back the rest of EV-\w{8} first/);
    await expect(api().sent.again({ file })).rejects.toThrow(/Take back the rest of EV-\w{8} first/);
    expect(await takenBack(file)).toEqual({ withdrawn: true });
    expect(await standing("CUT")).toMatchObject({ loads: [], fuel: [] });
    expect(new Set(await timesTaken(file))).toEqual(new Set([1]));
    await sent("CUT");
    expect(await standing("CUT")).toEqual(counted);
    await intact();
  });

  test("by two at once takes nothing back twice", { timeout: 600_000 }, async () => {
    await withSite("TWO");
    const file = await sent("TWO");
    const answers = await Promise.all([takenBack(file), takenBack(file)]);
    expect(answers).toContainEqual({ withdrawn: true });
    expect(await standing("TWO")).toMatchObject({ loads: [], fuel: [] });
    const times = await timesTaken(file);
    expect(times).toHaveLength(DAYS * LOADS);
    expect(new Set(times)).toEqual(new Set([1]));
    await intact();
  });

  test("leaves what another log told of the same loads meanwhile, or tells while a part is taken back", {
    timeout: 600_000,
  }, async () => {
    for (const code of ["MEAN", "ALONE", "NONE"]) await withSite(code);
    const [early, late] = [log(0, 20, 0.25), log(10, 190, 0.75)];
    const file = await sent("MEAN");
    const small = await sent("MEAN", early);
    await stoppedAfterAPart(file);
    await sent("MEAN", late);
    await takenBack(small);
    await intact();
    await takenBack(file);
    await sent("ALONE", late);
    const told = async (code: string) => {
      const { loads, fuel } = await standing(code);
      return { loads, fuel };
    };
    expect((await told("MEAN")).loads).toEqual((await told("ALONE")).loads);
    expect((await told("MEAN")).fuel).toEqual((await told("ALONE")).fuel);
    await intact();
  });

  test("waits for a log in which somebody joined loads of it to a dried weight meanwhile", {
    timeout: 600_000,
  }, async () => {
    await withSite("JOIN");
    const text = new TextDecoder().decode(LARGE);
    const day = dayAt(DAYS - 1);
    // the loads 3 and 4 of the last day have no dried weight yet
    const waiting = bytes(text.replace(new RegExp(`^(${day},[34],1,[^,]+),[^,]+,`, "gm"), "$1,,"));
    const file = await sent("JOIN", waiting);
    await stoppedAfterAPart(file);
    const dried = await sent("JOIN", bytes(`Date,Batch no,Dried (kg)\n${day},3+4,2.5\n`));
    const [row] = (await api().sent.difference({ file: dried }))?.rows ?? [];
    await api().logs.count({ file: dried, again: true, answers: { are: { "log!2": row?.mayJoin[0]?.put ?? "" } } });
    await expect(takenBack(file)).rejects.toThrow(/they count there together\. Take that log back first\./);
    const { takenBack: soFar } = await api().logs.file({ file });
    expect(soFar?.loads).toBeLessThan(DAYS * LOADS);
    await intact();
    await takenBack(dried);
    expect(await takenBack(file)).toEqual({ withdrawn: true });
    expect(await standing("JOIN")).toMatchObject({ loads: [], fuel: [] });
    await intact();
  });

  test("is the same built again from the journal", { timeout: 600_000 }, async () => {
    if (opened.store.kind !== "embedded") return;
    const again = await freshStore("embedded", { bare: true, dataDir: mkdtempSync(join(tmpdir(), "evendry-again-")) });
    try {
      await replay(again.store, opened.dataDir);
      const there = { store: again.store, person: OPERATOR.id, clock };
      const [here, built] = [await verify(corridor(), BOUNDS), await verify(there, BOUNDS)];
      expect(built.root).toBe(here.root);
      expect(built.differences.filter(({ what }) => what !== "original")).toEqual([]);
    } finally {
      await again.close();
    }
  });
});
