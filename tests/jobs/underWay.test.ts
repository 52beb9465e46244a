import { describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { fileById } from "#db/queries/files";
import { callerOf } from "#server/api/router";
import { Source } from "#server/jobs/source";
import { goOn, progressOf, Stopped, stopWork, underWay, workAtHand } from "#server/jobs/underWay";
import { verify } from "#server/jobs/verify";
import { OPERATOR, type Person } from "#server/terms/person";
import { backFile } from "../bench/backFile";
import { apiOf, BOUNDS, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const about = { file: "a log", person: "somebody", doing: "reading", ofBytes: 900 } as const;
const NOW = "2032-01-01T00:00:00Z";
const ROWS = 18_000;
/** So many are stored at once; more in parts. */
const AT_ONCE = 1_990;
const LARGE = 3_600;

describe("what is under way", () => {
  test("shows how far it is to whom it is for, and is gone when it is done", async () => {
    expect(progressOf("a log", "somebody")).toBeNull();
    const answer = await underWay(about, async () => {
      goOn({ bytes: 900, rows: 3, ofRows: 9 });
      await Promise.resolve();
      expect(progressOf("a log", "somebody")).toMatchObject({ doing: "reading", bytes: 900, rows: 3, ofRows: 9 });
      expect(progressOf("a log", "somebody else")).toBeNull();
      expect(progressOf("another log", "somebody")).toBeNull();
      return "read";
    });
    expect(answer).toBe("read");
    expect(progressOf("a log", "somebody")).toBeNull();
    expect(workAtHand()).toBeUndefined();
  });

  test("is one work where a page asks for several things of a log, until the last has its answer", async () => {
    let finish = () => {};
    const long = new Promise<void>((done) => (finish = done));
    const first = underWay(about, () => long);
    await underWay(about, async () => goOn({ rows: 7 }));
    expect(progressOf("a log", "somebody")).toMatchObject({ rows: 7 });
    finish();
    await first;
    expect(progressOf("a log", "somebody")).toBeNull();
  });

  test("counting shows to everybody who may see the log, before their own reading of it", async () => {
    await underWay({ ...about, person: "the lead", doing: "counting" }, async () => {
      await underWay(about, async () => {
        expect(progressOf("a log", "somebody")).toMatchObject({ doing: "counting" });
      });
    });
  });

  test("stopped, it ends at its next step, and what begins then is new", async () => {
    let step = () => {};
    const next = new Promise<void>((done) => (step = done));
    const work = underWay(about, async () => {
      await next;
      goOn({ rows: 1 });
    });
    expect(stopWork("a log", "somebody else")).toBe(false);
    expect(stopWork("a log", "somebody")).toBe(true);
    expect(progressOf("a log", "somebody")).toBeNull();
    step();
    await expect(work).rejects.toThrow(Stopped);
    await underWay(about, async () => goOn({ rows: 2 }));
  });
});

async function withSite({ store }: Opened, bounds = BOUNDS) {
  const clock = () => new Date(NOW);
  const api = callerOf({ store, person: OPERATOR, clock, bounds });
  const declarations = [
    { kind: "open", from: "1999-01-01", value: {} },
    { kind: "method", from: "1999-01-01", value: { method: "sand-pan" } },
  ] as const;
  await api.sites.open({ code: "OJ", declarations: [...declarations] });
  await api.sites.open({ code: "SL", declarations: [...declarations] });
  return api;
}

async function until(isSo: () => boolean): Promise<void> {
  const last = Date.now() + 60_000;
  while (!isSo()) {
    if (Date.now() > last) throw new Error("it never came so far");
    await new Promise((on) => setTimeout(on, 1));
  }
}

const stateOf = async ({ store }: Opened, file: string) =>
  (await asPerson({ store, person: OPERATOR.id }, (tx) => fileById(tx, file)))?.state;

describe.each(KINDS)("a large log on %s", (kind) => {
  test("is stopped while it is read, and stays as it came", { timeout: 120_000 }, async () => {
    const opened = await freshStore(kind);
    const api = await withSite(opened);
    const csv = backFile(ROWS, 1);
    const { file } = await api.logs.arrive({ site: "OJ", bytes: csv, name: "back.csv" });
    const looking = api.logs.understood({ file });
    const stopped = expect(looking).rejects.toThrow("It was stopped. The log is kept as it came");
    await until(() => (progressOf(file, OPERATOR.id)?.rows ?? 0) > 0);
    expect(await api.logs.progress({ file })).toMatchObject({
      doing: "reading",
      step: "reading",
      bytes: csv.byteLength,
      ofBytes: csv.byteLength,
    });
    expect(await api.logs.stop({ file })).toEqual({ stopped: true });
    await stopped;
    expect(await api.logs.progress({ file })).toBeNull();
    expect(await api.logs.stop({ file })).toEqual({ stopped: false });
    expect(await stateOf(opened, file)).toBe("arrived");
    expect(await api.logs.understood({ file })).toMatchObject({ counts: { rows: ROWS + 1 } });
    await opened.close();
  });

  test("that is stored at once is stopped: nothing of it is there, and it can be counted after all", {
    timeout: 120_000,
  }, async () => {
    const opened = await freshStore(kind);
    const api = await withSite(opened);
    const { file } = await api.logs.arrive({ site: "OJ", bytes: backFile(AT_ONCE, 1), name: "back.csv" });
    const counting = api.logs.count({ file });
    const stopped = expect(counting).rejects.toThrow("It was stopped.");
    await until(() => progressOf(file, OPERATOR.id)?.step === "storing");
    expect(progressOf(file, OPERATOR.id)).toMatchObject({ doing: "counting", ofRows: AT_ONCE + 1, inParts: false });
    expect(stopWork(file, OPERATOR.id)).toBe(true);
    await stopped;
    expect(await stateOf(opened, file)).toBe("arrived");
    expect(await api.logs.rows({ file })).toEqual([]);
    const corridor = { store: opened.store, person: OPERATOR.id, clock: () => new Date(NOW) };
    expect((await verify(corridor, BOUNDS)).differences).toEqual([]);
    expect(await api.logs.count({ file })).toMatchObject({ slip: { rows: { counted: AT_ONCE } } });
    expect((await verify(corridor, BOUNDS)).differences).toEqual([]);
    await opened.close();
  });

  test("counts part by part: stopped, what is stored counts, and the rest is counted when asked again", {
    timeout: 240_000,
  }, async () => {
    const opened = await freshStore(kind);
    const api = await withSite(opened);
    const corridor = { store: opened.store, person: OPERATOR.id, clock: () => new Date(NOW) };
    const { file } = await api.logs.arrive({ site: "OJ", bytes: backFile(LARGE, 1), name: "back.csv" });
    expect(await api.logs.understood({ file })).toMatchObject({ counts: { rows: LARGE + 1 } });
    const counting = api.logs.count({ file, answers: { dayOrder: "ymd" } });
    const stopped = expect(counting).rejects.toThrow("It was stopped.");
    await until(
      () => (progressOf(file, OPERATOR.id)?.inParts ?? false) && (progressOf(file, OPERATOR.id)?.rows ?? 0) > 0,
    );
    expect(progressOf(file, OPERATOR.id)).toMatchObject({ doing: "counting", step: "storing", ofRows: LARGE + 1 });
    expect(await api.logs.stop({ file })).toEqual({ stopped: true });
    await stopped;
    const { state, soFar } = await api.logs.file({ file });
    expect([state, soFar?.byCommand]).toEqual(["read", false]);
    expect(soFar?.counted).toBeGreaterThan(0);
    expect(soFar?.counted).toBeLessThan(LARGE);
    expect((await verify(corridor, BOUNDS)).differences).toEqual([]);
    // as it was begun, whatever else is asked
    expect(await api.logs.count({ file })).toMatchObject({
      slip: { rows: { rows: LARGE + 1, counted: LARGE }, batches: { new: LARGE } },
    });
    expect(await api.logs.file({ file })).toMatchObject({ state: "counted", answers: { dayOrder: "ymd" } });
    expect((await api.sent.deeds({ file })).map(({ deed }) => deed)).toEqual(["arrived", "counted-in-part", "counted"]);
    expect((await verify(corridor, BOUNDS)).differences).toEqual([]);
    expect(await api.logs.withdraw({ file, reason: "the wrong one" })).toEqual({ withdrawn: true });
    expect((await verify(corridor, BOUNDS)).differences).toEqual([]);
    await opened.close();
  });

  test("says in parts what it says at once", { timeout: 240_000 }, async () => {
    const [small, large] = [await freshStore(kind), await freshStore(kind)];
    const [one, other] = [await withSite(small), await withSite(large)];
    const whole = backFile(LARGE, 1).toString();
    const lines = whole.trimEnd().split("\n");
    const half = Math.ceil(lines.length / 20) * 10; // between two days
    const halves = [lines.slice(0, half + 1), [lines[0], ...lines.slice(half + 1)]];
    for (const [at, part] of halves.entries())
      await one.logs.send({ site: "OJ", bytes: bytes(part.join("\n")), name: `${at}.csv` });
    await other.logs.send({ site: "OJ", bytes: bytes(whole), name: "back.csv" });
    const figures = async (api: typeof one) =>
      (await api.figures.site({ site: "OJ", from: "2000-01", to: "2000-12" })).map(({ figures: of }) =>
        Object.values(of).map((figure) => ({ ...figure, asKnownOn: null })),
      );
    expect(await figures(other)).toEqual(await figures(one));
    await Promise.all([small.close(), large.close()]);
  });

  test("is neither watched nor stopped from another site", async () => {
    const opened = await freshStore(kind);
    const api = await withSite(opened);
    const { file } = await api.logs.arrive({ site: "OJ", bytes: backFile(20, 1), name: "back.csv" });
    const added = await api.people.add({ name: "Tomas Reed", role: "lead", site: "SL" });
    const lead: Person = { id: added.id, role: "lead", site: 2 };
    const other = apiOf(opened.store, NOW, lead);
    await underWay({ file, person: OPERATOR.id, doing: "counting", ofBytes: 9 }, async () => {
      await expect(other.logs.progress({ file })).rejects.toThrow("There is no such file.");
      await expect(other.logs.stop({ file })).rejects.toThrow("There is no such file.");
      expect(progressOf(file, OPERATOR.id)).not.toBeNull();
    });
    await opened.close();
  });

  test("in parts stops after a part, says what is counted, and goes on when it comes again", {
    timeout: 120_000,
  }, async () => {
    const opened = await freshStore(kind);
    const small = { ...BOUNDS, rows: 240 };
    const api = await withSite(opened, small);
    const corridor = { store: opened.store, person: OPERATOR.id, clock: () => new Date(NOW) };
    const csv = backFile(1_000, 1);
    const { file } = await api.logs.arrive({ site: "OJ", bytes: csv, name: "back.csv" });
    const send = (stopAfter: number) => {
      let parts = 0;
      const onPart = () => {
        if (++parts === stopAfter) stopWork(file, OPERATOR.id);
      };
      return api.logs.sendLarge({ site: "OJ", source: Source.of(csv), name: "back.csv", onPart });
    };
    await expect(send(2)).rejects.toThrow("It was stopped.");
    const { state, soFar } = await api.logs.file({ file });
    expect([state, soFar?.parts, soFar?.held]).toEqual(["read", 2, 0]);
    expect(soFar?.counted).toBeGreaterThan(small.rows / 2);
    expect(soFar?.counted).toBeLessThan(1_000);
    expect((await verify(corridor, small)).differences).toEqual([]);
    const counted = soFar?.counted ?? 0;
    await expect(send(1)).rejects.toThrow("It was stopped.");
    expect((await api.logs.file({ file })).soFar?.counted).toBeGreaterThan(counted);
    expect(await send(0)).toMatchObject({ slip: { file, rows: { counted: 1_000 }, batches: { new: 1_000 } } });
    expect((await verify(corridor, small)).differences).toEqual([]);
    await opened.close();
  });

  test("in parts, taken back while parts are missing, leaves nothing that counts", { timeout: 120_000 }, async () => {
    const opened = await freshStore(kind);
    const small = { ...BOUNDS, rows: 240 };
    const api = await withSite(opened, small);
    const csv = backFile(600, 1);
    const { file } = await api.logs.arrive({ site: "OJ", bytes: csv, name: "back.csv" });
    const onPart = () => void stopWork(file, OPERATOR.id);
    const order = { site: "OJ", source: Source.of(csv), name: "back.csv" };
    await expect(api.logs.sendLarge({ ...order, onPart })).rejects.toThrow("It was stopped.");
    expect(await api.logs.withdraw({ file, reason: "the wrong file" })).toEqual({ withdrawn: true });
    const corridor = { store: opened.store, person: OPERATOR.id, clock: () => new Date(NOW) };
    expect((await verify(corridor, small)).differences).toEqual([]);
    expect(await api.logs.sendLarge(order)).toMatchObject({ slip: { rows: { counted: 600 } } });
    expect((await verify(corridor, small)).differences).toEqual([]);
    await opened.close();
  });
});
