import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { isCountedOnce } from "#server/terms/acceptedTold";
import { daysBetween, monthOf, weekday } from "#server/terms/days";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";
import { seeded } from "../statistics/seeded";

const MONTHS = ["2031-01", "2031-02", "2031-03", "2031-04", "2031-05"];
/** From this day on one of the sites dries 12 % more out of the same, until the day on which it stops. */
const STEP = { site: "SL", from: "2031-03-12", to: "2031-04-20", times: 1.12 };
const WHEN = "2031-06-12T10:00:00Z";

function log(site: string, month: string, seed: number): string {
  const chance = seeded(seed);
  const lines = ["Date,Batch no,Fresh (kg),Dried (kg),Minutes"];
  let number = Number(month.slice(5)) * 1000;
  for (const day of daysBetween(`${month}-01`, `${month}-28`)) {
    if (weekday(day) === 7) continue;
    const luck = 0.02 * chance.normal();
    for (let load = 0; load < 3; load++) {
      const fresh = 9 + 2 * chance.uniform();
      const changed = site === STEP.site && day >= STEP.from && day <= STEP.to ? STEP.times : 1;
      const dried = fresh * 0.32 * changed * Math.exp(luck + 0.02 * chance.normal());
      lines.push([day, number++, fresh.toFixed(2), dried.toFixed(2), (90 + 8 * chance.normal()).toFixed(0)].join(","));
    }
  }
  return `${lines.join("\n")}\n`;
}

describe.each(KINDS)("signals over a programme on the %s database", (kind) => {
  let opened: Opened;

  beforeAll(async () => {
    opened = await freshStore(kind);
    const api = apiOf(opened.store, "2031-01-01T08:00:00Z");
    const from = "2031-01-01";
    for (const code of ["OJ", "SL", "UF"])
      await api.sites.open({
        code,
        declarations: [
          { kind: "open", from, value: {} },
          { kind: "method", from, value: { method: "sand-pan" } },
          { kind: "numbering", from, value: { unique: "site" } },
        ],
      });
    for (const [i, site] of ["OJ", "SL", "UF"].entries())
      for (const [at, month] of MONTHS.entries())
        await apiOf(opened.store, `2031-0${at + 2}-03T08:00:00Z`).logs.send({
          site,
          bytes: bytes(log(site, month, 100 * i + at)),
          name: `${month}.csv`,
        });
  }, 120_000);
  afterAll(() => opened.close());

  test("the one change is told: where, since when, how much, and what to ask", async () => {
    const { signals, months } = await apiOf(opened.store, WHEN).signals.list({ from: "2031-01", to: "2031-05" });
    const [first] = signals.filter(({ site }) => site === STEP.site);
    expect(first).toMatchObject({ measure: "dry-yield", method: "sand-pan", direction: "up", chart: "drift" });
    expect(Math.abs(Number(first!.since?.slice(8)) - 12), first?.since ?? "").toBeLessThanOrEqual(4);
    expect(first!.since?.slice(0, 7)).toBe("2031-03");
    expect(first!.sinceFrom <= STEP.from && STEP.from <= first!.sinceTo).toBe(true);
    expect(first!.low).toBeLessThan(0.12);
    expect(first!.high).toBeGreaterThan(0.1);
    expect(first!.questions).toHaveLength(3);
    expect(signals.filter(({ site }) => site !== STEP.site).length).toBeLessThanOrEqual(2);
    expect(months.at(-1)).toMatchObject({ month: "2031-05", streams: 6, accepted: 1 });
  });

  test("it stands while the level lasts, and no longer once it went back", async () => {
    const api = apiOf(opened.store, WHEN);
    const of = async (month: string) =>
      (await api.signals.standing({ month })).signals.filter(
        ({ site, measure }) => site === "SL" && measure === "dry-yield",
      );
    expect(await of("2031-02")).toEqual([]);
    expect(await of("2031-03")).toMatchObject([{ direction: "up", state: "stands" }]);
    expect((await of("2031-05")).filter(({ direction }) => direction === "up")).toEqual([]);
  });

  test("the count of each month is that of the signals it leads to, today and as known on an earlier day", async () => {
    const api = apiOf(opened.store, WHEN);
    for (const asOf of [undefined, "2031-06-11T00:00:00Z"]) {
      const known = asOf === undefined ? {} : { asOf };
      const { months } = await api.signals.accepted(known);
      const { signals } = await api.signals.list({ from: "2031-01", to: "2031-06", ...known });
      const counted = (month: string) =>
        signals.filter((one) => monthOf(one.raisedOn) === month && isCountedOnce(one)).length;
      expect(months.length).toBeGreaterThan(2);
      expect(months.map(({ month, raised }) => [month, raised])).toEqual(
        months.map(({ month }) => [month, counted(month)]),
      );
      expect(counted("2031-03")).toBeGreaterThan(0);
    }
  });

  test("as known before the log came there was nothing to tell", async () => {
    const { signals } = await apiOf(opened.store, WHEN).signals.list({
      from: "2031-01",
      to: "2031-05",
      asOf: "2031-04-01T00:00:00Z",
    });
    expect(signals.filter(({ site }) => site === STEP.site)).toEqual([]);
  });

  test("a site lead is told what the officer is told of the own site, and nothing of the others", async () => {
    const { id } = await apiOf(opened.store, "2031-06-01T08:00:00Z").people.add({
      name: "Asha",
      role: "lead",
      site: "SL",
    });
    const lead = apiOf(opened.store, WHEN, { id, role: "lead", site: 2 });
    const span = { from: "2031-01", to: "2031-05" };
    const own = await lead.signals.list(span);
    const all = await apiOf(opened.store, WHEN).signals.list(span);
    expect(own.signals).toEqual(all.signals.filter(({ site }) => site === "SL"));
    await expect(lead.signals.list({ ...span, site: "OJ" })).rejects.toThrow("There is no site OJ");
  });
});
