import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Store } from "#db/store";
import { type DemoScenario, scenario } from "#seed/generate";
import { type DemoSignIn, loadDemo } from "#seed/load";
import { begin } from "#server/jobs/begin";
import { apiOf, freshStore, KINDS, type Opened } from "../setup/stores";

/**
 * Two sites over two months: one weighs its loads the next morning and in the next month's log, one writes a line
 * a day.
 */
async function smallScenario(): Promise<DemoScenario> {
  const demo = await scenario("2031-06", 4, ["WH", "SL"]);
  const logs = demo.logs.filter(({ month }) => month <= "2030-08");
  return { ...demo, logs, declared: demo.declared.filter(({ at }) => at < "2030-09"), publications: [] };
}

describe.each(KINDS)("a demo loaded into %s", (kind: Store["kind"]) => {
  let opened: Opened;
  let demo: DemoScenario;
  let signIns: DemoSignIn[];
  const said: string[] = [];
  const now = new Date("2031-07-20T12:00:00Z");
  const load = () =>
    loadDemo({
      demo,
      apiAt: (clock) => apiOf(opened.store, clock),
      now,
      progress: (done, of, what) => said.push(`${done}/${of} ${what}`),
    });

  beforeAll(async () => {
    demo = await smallScenario();
    opened = await freshStore(kind, { bare: true });
    await begin(opened.store, () => new Date(demo.startsOn));
    signIns = await load();
  });
  afterAll(() => opened.close());

  test("tells one-time passwords of an officer and an auditor; there is no lead without the lead's site", () => {
    expect(signIns.map(({ role }) => role)).toEqual(["officer", "auditor"]);
    expect(new Set(signIns.map(({ password }) => password)).size).toBe(2);
  });

  test("has every log, counted, from the day on which its site sent it", async () => {
    for (const site of ["WH", "SL"]) {
      const files = await apiOf(opened.store, now.toISOString()).logs.list({ site });
      const sent = demo.logs.filter((log) => log.site === site);
      expect(files.map(({ name, state, arrivedAt }) => [name, state, arrivedAt]).sort()).toEqual(
        sent.map(({ name, sentOn }) => [name, "counted", sentOn]).sort(),
      );
    }
  });

  test("adds up to what was dried, dried weights of the next month's first morning with it", async () => {
    const api = apiOf(opened.store, now.toISOString());
    for (const site of ["WH", "SL"]) {
      const months = await api.figures.site({ site, from: "2030-07", to: "2030-08" });
      const fresh = months.map(({ figures }) => (figures.fresh.known ? figures.fresh.value : 0));
      const written = demo.logs.flatMap((log, at) => (log.site === site ? [demo.truths[at]?.freshKg ?? 0] : []));
      expect(fresh[0], site).toBeCloseTo(written[0] ?? 0, 6);
      expect(fresh[1], site).toBeCloseTo(written[1] ?? 0, 6);
    }
    const [july, august] = await api.figures.site({ site: "WH", from: "2030-07", to: "2030-08" });
    expect(july?.completeness.toCome).toBe(0);
    expect(august?.completeness.toCome).toBe(2); // the last day's two loads, weighed in September
  });

  test("goes on where it stopped: loaded again it changes nothing", async () => {
    const api = apiOf(opened.store, now.toISOString());
    const before = await api.ledger.head();
    expect(await load()).toEqual([]);
    expect(await api.ledger.head()).toEqual(before);
  });

  test("tells how far it is, from nothing done to everything", () => {
    const all =
      demo.sites.length +
      demo.declared.length +
      demo.logs.length +
      new Set(demo.logs.map(({ sentOn }) => sentOn.slice(0, 7))).size;
    expect(said[0]).toMatch(new RegExp(`^0/${all} `));
    expect(said).toContain(`${all}/${all} everything is here`);
  });
});
