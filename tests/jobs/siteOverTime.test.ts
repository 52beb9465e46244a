import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { sandUses } from "#db/queries/siteOverTime";
import { siteByCode } from "#db/queries/sites";
import { OPERATOR } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const HEAD = "Date,Batch no,Pan,Start,Fresh (kg),Dried (kg),Minutes,New sand,Crush test";
const MARCH = [
  "2031-03-28,1,1,08:00,10,3.2,90,,",
  "2031-03-29,2,1,08:00,10,3.2,90,yes,pass",
  "2031-03-29,3,2,08:00,10,3.2,90,,",
  "2031-03-31,4,1,08:00,10,3.2,90,,fail",
];
const APRIL = [
  "2031-04-01,5,1,08:00,10,3.1,90,,pass",
  "2031-04-01,6,2,08:00,10,3.1,90,,not tested",
  "2031-04-03,7,1,08:00,10,3.1,90,,",
  "2031-04-03,8,1,10:00,10,3.1,90,yes,pass",
];

describe.each(KINDS)("what a site did over time on the %s database", (kind) => {
  let opened: Opened;
  const api = () => apiOf(opened.store, "2031-05-12T10:00:00Z");
  const april = { site: "OJ", from: "2031-04", to: "2031-04" };

  beforeAll(async () => {
    opened = await freshStore(kind);
    const early = apiOf(opened.store, "2031-01-02T08:00:00Z");
    const from = "2031-01-01";
    await early.sites.open({
      code: "OJ",
      declarations: [
        { kind: "name", from, value: { name: "Old Jetty" } },
        { kind: "method", from, value: { method: "sand-pan" } },
        { kind: "usual-measures", from, value: { mass: "kg", time: "min", dayOrder: "ymd" } },
        { kind: "numbering", from, value: { unique: "site" } },
        { kind: "schedule", from, value: { weekdays: [1, 2, 3, 4, 5, 6], perDay: 2, of: "batches" } },
        { kind: "sand-limit", from, value: { loads: 3 } },
        { kind: "pans", from, value: { pans: 1 } },
        { kind: "pans", from: "2031-04-02", value: { pans: 2 } },
        {
          kind: "event",
          key: "visit",
          from: "2031-04-10",
          to: "2031-04-10",
          value: { kind: "visit", text: "scale checked" },
        },
        {
          kind: "closed",
          key: "2031-04-04",
          from: "2031-04-04",
          to: "2031-04-04",
          value: { reason: "feast", accepted: true },
        },
      ],
    });
    await early.sites.open({ code: "SL", declarations: [] });
    const late = apiOf(opened.store, "2031-05-03T08:00:00Z");
    for (const [name, lines] of [
      ["march", MARCH],
      ["april", APRIL],
    ] as const)
      await late.logs.send({ site: "OJ", bytes: bytes(`${[HEAD, ...lines].join("\n")}\n`), name: `${name}.csv` });
  }, 120_000);
  afterAll(() => opened.close());

  test("sand ages on from the last new sand before the months shown; a pan without one is not known", async () => {
    const { sand } = await api().site.overTime(april);
    expect(sand).toEqual({
      limit: 3,
      withoutPan: 0,
      pans: [
        {
          pan: "1",
          newOn: ["2031-04-03"],
          days: [
            { day: "2031-04-01", loads: 3 },
            { day: "2031-04-03", loads: 1 },
          ],
        },
        { pan: "2", newOn: [], days: [{ day: "2031-04-01", loads: null }] },
      ],
    });
  });

  test("of the loads before only those since the last new sand are read", async () => {
    const read = await asPerson({ store: opened.store, person: OPERATOR.id }, async (tx) => {
      const site = await siteByCode(tx, "OJ");
      const days = { earliest: "2030-04-01", from: "2031-04-01", to: "2031-04-30" };
      return sandUses(tx, site?.id ?? 0, days, Number.MAX_SAFE_INTEGER);
    });
    expect(read.map(({ pan, day }) => `${pan} ${day}`)).toEqual([
      "1 2031-03-29",
      "1 2031-03-31",
      "1 2031-04-01",
      "1 2031-04-03",
      "1 2031-04-03",
      "2 2031-04-01",
    ]);
  });

  test("tests are counted as logged, days are told apart, and what changed is an event", async () => {
    const { tests, days, events, methods, record } = await api().site.overTime(april);
    expect(tests.filter(({ test }) => test === "crush").map(({ result, batches }) => [result, batches])).toEqual(
      expect.arrayContaining([
        ["pass", 2],
        ["not-tested", 1],
        [null, 1],
      ]),
    );
    const state = new Map(days.map((one) => [one.day, one.state]));
    expect(["01", "02", "03", "04", "06"].map((date) => state.get(`2031-04-${date}`))).toEqual([
      "logged",
      "missing",
      "logged",
      "closed",
      "off",
    ]);
    expect(events.map(({ kind: what, from }) => `${what} ${from}`)).toEqual(["pans 2031-04-02", "event 2031-04-10"]);
    expect(methods[0]?.dryYield[0]?.figure).toMatchObject({ value: 6.2 / 20, restsOn: { used: 2, owed: 2 } });
    expect(record[0]?.figure).toMatchObject({ value: 1 });
  });

  test("as known before the logs came, nothing is here and nothing ahead is missing", async () => {
    const { days, sand, methods } = await api().site.overTime({ ...april, asOf: "2031-04-03" });
    expect(sand.pans).toEqual([]);
    expect(methods.map(({ method }) => method)).toEqual([null]);
    expect(days.filter(({ state }) => state === "missing").map(({ day }) => day)).toEqual(["2031-04-01", "2031-04-02"]);
  });

  test("months in the wrong order and too many of them are refused, and another site's lead sees nothing", async () => {
    await expect(api().site.overTime({ ...april, from: "2031-05" })).rejects.toThrow("is after");
    await expect(api().site.overTime({ ...april, from: "2020-01" })).rejects.toThrow("At most");
    const site = await asPerson({ store: opened.store, person: OPERATOR.id }, (tx) => siteByCode(tx, "SL"));
    const lead = { ...OPERATOR, role: "lead" as const, site: site?.id ?? 0 };
    await expect(apiOf(opened.store, "2031-05-12T10:00:00Z", lead).site.overTime(april)).rejects.toThrow("no site");
  });
});
