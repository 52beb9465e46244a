import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-05-02T08:00:00Z";
const HEADING = "Date,Batch no,Fresh (kg),Dried (kg),Minutes,Firewood (kg)";
const LOADS = [
  "2031-04-01,1,10,3.3,90,1.2",
  "2031-04-01,2,11,3.6,95,1.3",
  "2031-04-02,3,12,3.9,95,1.4",
  "2031-04-03,4,10.5,3.4,92,1.2",
];

describe.each(KINDS)("a log sent again on the %s database", (kind) => {
  let opened: Opened;
  let sites = 0;
  beforeAll(async () => {
    opened = await freshStore(kind);
  }, 120_000);
  afterAll(() => opened.close());

  const api = () => apiOf(opened.store, NOW);

  /** A site of its own for a test, whose numbers never come twice. */
  async function newSite(): Promise<string> {
    const site = `S${++sites}`;
    const from = "2031-01-01";
    await api().sites.open({
      code: site,
      declarations: [
        { kind: "open", from, value: {} },
        { kind: "method", from, value: { method: "sand-pan" } },
        { kind: "numbering", from, value: { unique: "site" } },
        { kind: "due", from, value: { dayOfMonth: 10 } },
      ],
    });
    return site;
  }

  const log = (lines: readonly string[], heading = HEADING) => bytes(`${[heading, ...lines].join("\n")}\n`);

  async function send(site: string, lines: readonly string[], more: { withdraw?: string[]; at?: string } = {}) {
    const { at = NOW, ...rest } = more;
    const sending = await apiOf(opened.store, at).logs.send({ site, bytes: log(lines), name: "log.csv", ...rest });
    if (!("slip" in sending)) throw new Error("it was not read");
    return sending.slip;
  }

  /** Fresh, dried and fuel of April, and how many batches they rest on. */
  async function april(site: string) {
    const [month] = await api().figures.site({ site, from: "2031-04", to: "2031-04" });
    const { fresh, heat } = month?.figures ?? {};
    const dry = month?.figures["dry-yield"];
    const freshKg = fresh?.known ? fresh.value : null;
    return {
      freshKg,
      yield: dry?.known ? Math.round(dry.value * 1e6) / 1e6 : null,
      heat: heat?.known ? heat.value : null,
      used: fresh?.restsOn.used ?? 0,
    };
  }

  test("a part of a month and then the whole of it double nothing, and each can be taken back without the other", async () => {
    const site = await newSite();
    const part = await send(site, LOADS.slice(0, 2));
    const whole = await send(site, LOADS);
    expect(whole.batches).toMatchObject({ new: 2, same: 2, changed: 0, vanished: 0 });
    const both = await april(site);
    expect(both).toMatchObject({ freshKg: 43.5, used: 4 });
    await api().logs.withdraw({ file: part.file, reason: "the whole month is here" });
    expect(await april(site)).toEqual(both);
    await api().logs.withdraw({ file: whole.file, reason: "to be sent once more" });
    expect(await april(site)).toMatchObject({ freshKg: null, used: 0 });
    await send(site, LOADS);
    expect(await april(site)).toEqual(both);
  });

  test("taken back, a later log leaves what an earlier one told as that told it", async () => {
    const site = await newSite();
    await send(site, [...LOADS.slice(0, 3), "2031-04-03,4,10.5,,92,1.2", "2031-04-04,4,,3.4,,"]);
    const first = await april(site);
    const later = await send(site, [
      "2031-04-02,3,12.5,3.9,95,1.5",
      "2031-04-03,4,10.5,,92,1.2",
      "2031-04-05,5,9,3,80,1",
    ]);
    expect(later.batches).toMatchObject({ new: 1, same: 1, changed: 1 });
    await api().logs.withdraw({ file: later.file, reason: "another site's log" });
    expect(await april(site)).toEqual(first);
    expect((await api().ledger.verify()).differences).toEqual([]);
  });

  test("a corrected month is shown as a difference first, row by row and field by field, and what it lacks stays unless ticked", async () => {
    const site = await newSite();
    await send(site, LOADS);
    const corrected = ["2031-04-01,1,10,3.3,90,1.2", "2031-04-02,3,12.4,3.9,99,1.4", "2031-04-03,5,9,3,80,1.1"];
    const { file } = await api().logs.arrive({ site, bytes: log(corrected), name: "corrected.csv" });
    const difference = await api().sent.difference({ file });
    expect(difference?.counts).toMatchObject({ new: 1, changed: 1, same: 1, doubtful: 0 });
    expect(difference?.rows.map(({ row, verdict, changes }) => ({ row, verdict, changes }))).toEqual([
      {
        row: 3,
        verdict: "changed",
        changes: [
          { field: "fresh", was: "12", is: "12.4" },
          { field: "minutes", was: "95", is: "99" },
        ],
      },
      { row: 4, verdict: "new", changes: [] },
    ]);
    expect(difference?.vanished.map(({ number }) => number)).toEqual(["2", "4"]);
    expect(difference?.earlier).toHaveLength(1);

    const [second] = difference?.vanished ?? [];
    const withdraw = [second?.id ?? ""];
    await expect(api().logs.count({ file, withdraw })).rejects.toThrow("Say why");
    const why = { reason: "twice", words: "" } as const;
    expect(await api().logs.count({ file, withdraw, why })).toMatchObject({
      slip: { batches: { new: 1, changed: 1, same: 1, withdrawn: 1, vanished: 1 } },
    });
    // 10 + 12.4 + 10.5 that stayed + 9; the fuel of the load that was ticked goes with it
    expect(await april(site)).toMatchObject({ freshKg: 41.9, used: 4 });
    const deeds = await api().sent.deeds({ file });
    expect(deeds.map(({ deed, why }) => ({ deed, why }))).toEqual([
      { deed: "arrived", why: null },
      { deed: "counted", why },
    ]);
    expect(await api().sent.difference({ file })).toMatchObject({ counts: { new: 0, changed: 0, same: 3 } });

    await api().logs.withdraw({ file, reason: "not this one" });
    expect(await april(site)).toMatchObject({ freshKg: 43.5, used: 4 });
    const again = await api().sent.again({ file });
    expect(again.file).not.toBe(file);
    expect(await api().logs.count({ file: again.file })).toMatchObject({
      slip: { batches: { changed: 1, vanished: 2 } },
    });
    expect((await api().ledger.verify()).differences).toEqual([]);
  });

  test("a log that brings nothing that was here before has no difference to show", async () => {
    const site = await newSite();
    const { file } = await api().logs.arrive({ site, bytes: log(LOADS), name: "first.csv" });
    expect(await api().sent.difference({ file })).toBeNull();
  });

  test("a correction that a person made in between outlives the log before and the log after it", async () => {
    const site = await newSite();
    const first = await send(site, LOADS);
    const second = await send(site, ["2031-04-01,1,10.2,3.3,90,1.2", "2031-04-01,2,11,3.6,97,1.3"]);
    // somebody corrects load 1 on the first log, which is counted again: what the second one changed elsewhere stays
    const answers = { cells: { "log!D2": "3.1 kg" } };
    await api().logs.count({ file: first.file, again: true, answers });
    const both = await april(site);
    expect(both).toMatchObject({ freshKg: 43.7 });
    await api().logs.withdraw({ file: second.file, reason: "wrong" });
    const corrected = await april(site);
    expect(corrected).toMatchObject({ freshKg: 43.5, yield: Math.round((14 / 43.5) * 1e6) / 1e6 });
    expect((await api().ledger.verify()).differences).toEqual([]);
  });

  test("dried weights whose load is taken back wait for it, and join it when it comes again", async () => {
    const site = await newSite();
    const loads = await send(site, ["2031-04-01,1,10,,90,1.2", "2031-04-02,2,11,,90,1.2"]);
    const dried = await send(site, ["2031-04-02,1,,3.3,,", "2031-04-03,2,,3.6,,"]);
    expect(dried.batches).toMatchObject({ joined: 2 });
    const both = await april(site);
    await api().logs.withdraw({ file: loads.file, reason: "one load too many" });
    expect(await april(site)).toMatchObject({ freshKg: null, yield: null });
    const [{ rows } = { rows: null }] = (await api().sent.ofSite({ site })).logs;
    expect(rows).toMatchObject({ held: 2 });
    await api().logs.count({ file: (await api().sent.again({ file: loads.file })).file });
    expect(await april(site)).toEqual(both);
    expect((await api().ledger.verify()).differences).toEqual([]);
  });

  test("a set weighed together takes the place of its loads, and these come back when it is taken back", async () => {
    const site = await newSite();
    const ones = ["2031-04-01,3,10,,90,1.2", "2031-04-01,4,11,,90,1.3", "2031-04-01,5,12,,90,1.4"];
    const first = await send(site, [...ones, LOADS[2]?.replace(",3,", ",6,") ?? ""]);
    const before = await april(site);
    expect(before).toMatchObject({ freshKg: 45, used: 4 });
    const set = ["2031-04-01,3+4+5,33,10.5,270,3.9"];
    const { file } = await api().logs.arrive({ site, bytes: log(set), name: "set.csv" });
    const difference = await api().sent.difference({ file });
    expect(difference?.rows[0]?.instead.map(({ number }) => number)).toEqual(["3", "4", "5"]);
    await api().logs.count({ file });
    const after = await april(site);
    expect(after).toMatchObject({ freshKg: 45, yield: Math.round((14.4 / 45) * 1e6) / 1e6 });
    // the same loads one by one once more, in other bytes, say nothing new
    expect((await send(site, [...ones].reverse())).batches).toMatchObject({ new: 0, same: 3 });
    expect(await april(site)).toEqual(after);
    expect((await api().ledger.verify()).differences).toEqual([]);
    await api().logs.withdraw({ file, reason: "to see" });
    expect(await april(site)).toMatchObject({ freshKg: 45, used: 4 });
    expect((await api().ledger.verify()).differences).toEqual([]);
    void first;
  });

  test("a set whose loads do not add up is held, until somebody says that it takes their place", async () => {
    const site = await newSite();
    await send(site, ["2031-04-01,3,10,,90,1.2", "2031-04-01,4,11,,90,1.3"]);
    const { file } = await api().logs.arrive({
      site,
      bytes: log(["2031-04-01,3+4+5,33,10.5,270,"]),
      name: "set.csv",
    });
    expect(await api().sent.difference({ file })).toMatchObject({ counts: { doubtful: 1 } });
    await api().logs.count({ file });
    expect(await april(site)).toMatchObject({ freshKg: 21, used: 2 });
    await api().logs.count({ file, again: true, answers: { are: { "log!2": "instead" } } });
    expect(await april(site)).toMatchObject({ freshKg: 33, used: 1 });
    expect((await api().ledger.verify()).differences).toEqual([]);
  });

  test("equal loads on one day stay apart, and two people who send at once double and lose nothing", async () => {
    const site = await newSite();
    const heading = "Date,Fresh (kg),Dried (kg)";
    const equal = ["2031-04-01,1,0.3", "2031-04-01,1,0.3", "2031-04-02,1,0.3"];
    const order = (lines: readonly string[]) => ({ site, bytes: log(lines, heading), name: "log.csv" });
    const slips = await Promise.all([
      api().logs.send(order(equal)),
      api().logs.send(order(equal)),
      api().logs.send(order([...equal, "2031-04-03,1,0.31"])),
      api().logs.send(order([...equal].reverse())),
    ]);
    expect(slips[0]).toEqual(slips[1]);
    expect(await april(site)).toMatchObject({ freshKg: 4, used: 4 });
    const [first] = slips;
    const file = first !== undefined && "slip" in first ? first.slip.file : "";
    const undone = await Promise.all([1, 2].map(() => api().logs.withdraw({ file, reason: "twice" })));
    expect(undone.map(({ withdrawn }) => withdrawn).sort()).toEqual([false, true]);
    expect(await april(site)).toMatchObject({ freshKg: 4, used: 4 });
    expect((await api().ledger.verify()).differences).toEqual([]);
  });

  test("fuel on a line of its own is corrected by its log sent again, and outlives the first log where both say it", async () => {
    const site = await newSite();
    const first = await send(site, ["2031-04-01,1,10,3.3,90,", "2031-04-01,,,,,3"]);
    const before = await april(site);
    expect(before.heat).toBeGreaterThan(0);
    const second = await send(site, ["2031-04-01,1,10,3.3,91,", "2031-04-01,,,,,3"]);
    await api().logs.withdraw({ file: first.file, reason: "sent twice" });
    expect((await april(site)).heat).toBe(before.heat);
    const { file } = await api().logs.arrive({
      site,
      bytes: log(["2031-04-01,1,10,3.3,91,", "2031-04-01,,,,,4"]),
      name: "c",
    });
    const difference = await api().sent.difference({ file });
    expect(difference?.fuel).toMatchObject([{ was: { amount: { exact: "3" } }, is: { amount: { exact: "4" } } }]);
    await api().logs.count({ file });
    expect((await april(site)).heat).toBeCloseTo(((before.heat ?? 0) * 4) / 3, 9);
    for (const one of [file, second.file]) await api().logs.withdraw({ file: one, reason: "to see" });
    expect(await april(site)).toMatchObject({ freshKg: null, heat: null });
    expect((await api().ledger.verify()).differences).toEqual([]);
  });

  test("loads whose place a set took stay out when their log is counted again", async () => {
    const site = await newSite();
    const loads = await send(site, ["2031-04-01,3,10,,90,", "2031-04-01,4,11,,90,", "2031-04-02,5,9,3.500,90,"]);
    await send(site, ["2031-04-01,3+4,21,6.9,180,"]);
    expect(await april(site)).toMatchObject({ freshKg: 21, used: 1 });
    const answers = { cells: { "log!D4": "3.5 kg" } };
    await api().logs.count({ file: loads.file, again: true, answers });
    expect(await april(site)).toMatchObject({ freshKg: 30, used: 2 });
    expect((await api().ledger.verify()).differences).toEqual([]);
  });
});
