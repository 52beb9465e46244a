import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { COMPARED_SUMS, comparedSums, monthSumsOf } from "#db/queries/sums";
import type { Store } from "#db/store";
import type { Compared } from "#server/compare/entry";
import { readMonth } from "#server/jobs/compareMonth";
import { comparisonOf } from "#server/jobs/comparison";
import { daysBetween } from "#server/terms/days";
import type { Figure } from "#server/terms/figure";
import { OPERATOR } from "#server/terms/person";
import type { MonthSum } from "#server/terms/sums";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";
import { seeded } from "../statistics/seeded";

const SITES = ["OJ", "SL", "UF", "PG"];
const WHEN = "2031-05-12T10:00:00Z";

/** April and March of one site: a load or two a day, gas weighed daily, by the week or as cylinders that overlap months. */
function log(site: string, month: string, seed: number): string {
  const chance = seeded(seed);
  const weighs = site === "OJ" || site === "SL";
  const lines = [`Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes${weighs ? ",LPG (kg)" : ""}`];
  let number = Number(month.slice(5)) * 100;
  for (const day of daysBetween(`${month}-01`, `${month}-28`)) {
    if (chance.uniform() < 0.15) continue;
    for (let load = 0; load < 1 + Math.floor(2 * chance.uniform()); load++) {
      const fresh = 8 + 6 * chance.uniform();
      const dried = chance.uniform() < 0.06 ? "" : (fresh * (0.32 + 0.02 * chance.normal())).toFixed(2);
      const minutes = chance.uniform() < 0.08 ? "" : (80 + 20 * chance.uniform()).toFixed(0);
      const gas = weighs ? `,${(0.8 + 0.2 * chance.uniform()).toFixed(2)}` : "";
      lines.push([day, number++, 1 + load, fresh.toFixed(1), dried, minutes].join(",") + gas);
    }
  }
  return `${lines.join("\n")}\n`;
}

describe.each(KINDS)("a month of all sites side by side on the %s database", (kind) => {
  let opened: Opened;

  beforeAll(async () => {
    opened = await freshStore(kind);
    const early = apiOf(opened.store, "2031-01-02T08:00:00Z");
    for (const code of [...SITES, "LH"]) await early.sites.open({ code, declarations: declarations(code) });
    const late = apiOf(opened.store, "2031-05-03T08:00:00Z");
    for (const [i, site] of SITES.entries())
      for (const month of ["2031-03", "2031-04"])
        await late.logs.send({
          site,
          bytes: bytes(log(site, month, 10 * i + Number(month.slice(6)))),
          name: `${month}.csv`,
        });
    const fuel = { fuel: "lpg", unit: "kg" } as const;
    const said = (site: string, from: string, to: string, how: "weighed" | "cylinder-changed", best: number) =>
      late.sites.declareFuel({ site, ...fuel, from, to, how, best });
    await said("UF", "2031-03-02", "2031-03-20", "cylinder-changed", 15);
    await said("UF", "2031-03-18", "2031-04-04", "weighed", 14);
    await said("UF", "2031-04-03", "2031-04-20", "cylinder-changed", 15);
    await said("UF", "2031-04-21", "2031-05-09", "cylinder-changed", 15);
    await said("PG", "2031-04-02", "2031-04-27", "weighed", 22);
  }, 120_000);
  afterAll(() => opened.close());

  test.each(["2031-03", "2031-04", "2031-05"])("%s says the same as each site's own figures", async (month) => {
    const api = apiOf(opened.store, WHEN);
    const compared = await api.compare.month({ month });
    const own = await api.figures.all({ from: month, to: month });
    expect(compared.rows.map(({ site }) => site).sort()).toEqual(own.map(({ code }) => code).sort());
    for (const { code, figures } of own) {
      const row = compared.rows.find(({ site }) => site === code)!;
      for (const measure of Object.keys(row.cells) as Compared[])
        expect(rounded(row.cells[measure].figure), `${code} ${measure}`).toEqual(rounded(figures[measure]));
      expect(rounded(row.beside.fuelPerFiringDay), code).toEqual(rounded(figures["fuel-per-firing-day"]));
      expect(rounded(row.beside.recordHere), code).toEqual(rounded(figures["record-here"]));
    }
  });

  test("the month's sentence counts who owed and who sent", async () => {
    const { programme } = await apiOf(opened.store, WHEN).compare.month({ month: "2031-04" });
    expect(programme).toMatchObject({ sites: 5, owing: 5, sent: 4, silent: ["LH"], filedNothing: 0 });
    expect(programme.freshKg).toBeGreaterThan(500);
  });

  test("as known before the logs came, nothing is known", async () => {
    const before = await apiOf(opened.store, WHEN).compare.month({ month: "2031-04", asOf: "2031-04-30T00:00:00Z" });
    expect(before.programme).toMatchObject({ sent: 0, freshKg: null });
    expect(before.rows.every(({ cells }) => !cells["dry-yield"].figure.known)).toBe(true);
  });

  test("the sums compared by are the latest revisions to the bit, before and after a month changed again", async () => {
    const late = apiOf(opened.store, "2031-05-06T08:00:00Z");
    const before = await late.compare.month({ month: "2031-04" });
    const text = "Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes\n2031-04-30,990,1,10.1,3.3,90\n";
    await late.logs.send({ site: "SL", bytes: bytes(text), name: "later.csv" });
    const known = await asPerson({ store: opened.store, person: OPERATOR.id }, async (tx) => {
      const { ledgerSize } = await knownOn(tx, null);
      const past = before.asKnownOn.ledgerSize;
      for (const size of [ledgerSize, past, 0]) {
        const every = await monthSumsOf(tx, "2031-04", null, size);
        const compared = every.filter(({ measure }) => COMPARED_SUMS.includes(measure));
        expect(inOrder(await comparedSums(tx, "2031-04", size))).toEqual(inOrder(compared));
      }
      return comparisonOf("2031-04", await readMonth(tx, "2031-04", before.asKnownOn), before.asKnownOn);
    });
    expect(known).toEqual(before);
    const after = await late.compare.month({ month: "2031-04" });
    const loads = ({ rows }: typeof after) => rows.find(({ site }) => site === "SL")?.beside.recordHere.restsOn.here;
    expect(loads(after)).toBe((loads(before) ?? 0) + 1);
  });

  test("a site lead sees the own site and learns nothing of the others", async () => {
    const lead = await someLead(opened.store);
    const seen = await apiOf(opened.store, WHEN, lead).compare.month({ month: "2031-04" });
    expect(seen.rows.map(({ site }) => site)).toEqual(["SL"]);
    expect(seen.programme).toMatchObject({ sites: 1, sent: 1 });
    expect(seen.peers.flatMap(({ sites }) => sites).every((site) => site === "SL")).toBe(true);
  });

  test("it asks once a table, not once a site", async () => {
    const asked = await asPerson({ store: opened.store, person: OPERATOR.id }, async (tx) => {
      const counting = countingOf(tx);
      await readMonth(counting.tx, "2031-04", { ledgerSize: Number.MAX_SAFE_INTEGER, time: null });
      return counting.asked();
    });
    // sites, facts, month sums, day sums, and a round of fuel spans until nothing new touches: none of them per site
    expect(asked).toBeLessThanOrEqual(9);
  });
});

/** Figures of month sums and of day sums agree but for the last digits. */
function rounded(figure: Figure) {
  const digits = (value: number) => Number(value.toPrecision(9));
  if (!figure.known) return figure;
  const { value, interval, missingRange, ...rest } = figure;
  return {
    ...rest,
    value: digits(value),
    interval: interval && { ...interval, low: digits(interval.low), high: digits(interval.high) },
    missingRange: missingRange && { low: digits(missingRange.low), high: digits(missingRange.high) },
  };
}

function inOrder(sums: readonly MonthSum[]) {
  return sums.map((sum) => JSON.stringify(sum, Object.keys(sum).sort())).sort();
}

function countingOf<T extends object>(tx: T): { tx: T; asked: () => number } {
  let asked = 0;
  const watched = new Proxy(tx, {
    get(target, name, receiver) {
      const found = Reflect.get(target, name, receiver);
      if (typeof found !== "function" || !["execute", "select", "selectDistinctOn"].includes(String(name)))
        return found;
      asked++;
      return found.bind(target);
    },
  });
  return { tx: watched, asked: () => asked };
}

async function someLead(store: Store) {
  const api = apiOf(store, "2031-05-04T08:00:00Z");
  const added = await api.people.add({ name: "Asha of Salt Lane", role: "lead", site: "SL" });
  const site = 2; // the second site that was opened
  return { id: added.id, role: "lead", site } as const;
}

function declarations(code: string) {
  const from = "2031-01-01";
  return [
    { kind: "open", from, value: {} },
    { kind: "name", from, value: { name: code } },
    { kind: "method", from, value: { method: "sand-pan" } },
    { kind: "main-fuel", from, value: { fuel: "lpg" } },
    { kind: "numbering", from, value: { unique: "site", unbroken: code === "PG" } },
    {
      kind: "schedule",
      from,
      value: { weekdays: [1, 2, 3, 4, 5, 6], perDay: 2, of: code === "SL" ? "days" : "loads" },
    },
    { kind: "due", from, value: { dayOfMonth: 10 } },
    { kind: "scale-step", key: "dried", from, value: { kg: 0.01 } },
    { kind: "plausible", from, value: { highestFreshKg: 20, lowestYield: 0.22, highestYield: 0.42 } },
  ] as const satisfies unknown[];
}
