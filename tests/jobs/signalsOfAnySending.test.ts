import { describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { watchNow } from "#server/jobs/watchNow";
import { signalRows, streamRows } from "#server/jobs/watchRead";
import { daysBetween, weekday } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS } from "../setup/stores";
import { seeded } from "../statistics/seeded";

const SITES = ["OJ", "SL", "UF", "PG", "RK", "MS"];
const MONTHS = ["2031-01", "2031-02", "2031-03", "2031-04", "2031-05"];
const STEP = { site: "OJ", from: "2031-04-07", times: 1.16 };

/** A month of a site, line by line without its heading; masses in kg or in g. */
function linesOf(site: string, month: string, unit: "kg" | "g"): string[] {
  const chance = seeded(1000 * SITES.indexOf(site) + Number(month.slice(5)));
  const mass = (kg: number) => (unit === "kg" ? kg.toFixed(2) : String(Math.round(kg * 100) * 10));
  return daysBetween(`${month}-01`, `${month}-28`).flatMap((day) => {
    if (weekday(day) === 7) return [];
    const step = site === STEP.site && day >= STEP.from ? STEP.times : 1;
    return [0, 1].map((load) => {
      const fresh = 9 + 2 * chance.uniform();
      const dried = fresh * 0.32 * step * Math.exp(0.03 * chance.normal());
      const number = 10 * Number(day.slice(8)) + load;
      return [day, `${month}/${number}`, mass(fresh), mass(dried), (100 + 4 * chance.normal()).toFixed(0)].join(",");
    });
  });
}

const file = (unit: "kg" | "g", lines: readonly string[]) =>
  bytes(`Date,Batch no,Fresh (${unit}),Dried (${unit}),Minutes\n${lines.join("\n")}\n`);

/** How logs come: in which order sites and their lines stand, in which unit, in how many files. */
interface Manner {
  readonly sites: readonly string[];
  readonly unit: "kg" | "g";
  readonly files: (lines: readonly string[]) => readonly (readonly string[])[];
}

const PLAIN: Manner = { sites: SITES, unit: "kg", files: (lines) => [lines] };
const OTHERWISE: Manner = {
  // one site more, which never sends anything
  sites: ["WH", ...[...SITES].reverse()],
  unit: "g",
  files: (lines) => [lines.filter((_, i) => i % 3 === 0).reverse(), lines.filter((_, i) => i % 3 !== 0).reverse()],
};

/** What is told once all months have come so, the sites by their codes. */
async function told(kind: (typeof KINDS)[number], { sites, unit, files }: Manner) {
  const opened = await freshStore(kind);
  const { store } = opened;
  try {
    const from = "2031-01-01";
    for (const code of sites)
      await apiOf(store, "2031-01-01T08:00:00Z").sites.open({
        code,
        declarations: [
          { kind: "open", from, value: {} },
          { kind: "method", from, value: { method: "sand-pan" } },
          { kind: "numbering", from, value: { unique: "site" } },
        ],
      });
    for (const site of sites.filter((one) => SITES.includes(one)))
      for (const month of MONTHS)
        for (const [part, lines] of files(linesOf(site, month, unit)).entries())
          await apiOf(store, "2031-06-03T08:00:00Z").logs.send({
            site,
            bytes: file(unit, lines),
            name: `${month}-${part}.csv`,
          });
    await watchNow(store);
    return await asPerson({ store, person: OPERATOR.id }, async (tx) => ({
      signals: named(await signalRows(tx, "0001-01-01", "9999-12-31", null, Number.MAX_SAFE_INTEGER), sites),
      streams: named(await streamRows(tx, "0001-01", "9999-12", Number.MAX_SAFE_INTEGER), sites),
    }));
  } finally {
    await opened.close();
  }
}

/** With sites by their codes, since numbers follow the order in which sites were opened. */
function named<T extends { readonly site: number }>(rows: readonly T[], sites: readonly string[]) {
  const code = (site: number) => (site === 0 ? "together" : sites[site - 1]);
  const texts = rows.map(({ site, ...row }) => ({ ...row, site: code(site) }));
  return texts.sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
}

describe.each(KINDS)("on the %s database", (kind) => {
  test("grams, other orders of lines and sites, more files and a silent site change nothing that is told", async () => {
    const [plain, otherwise] = [await told(kind, PLAIN), await told(kind, OTHERWISE)];
    expect(plain.signals.some(({ site, measure }) => site === STEP.site && measure === "dry-yield")).toBe(true);
    expect(plain.streams.length).toBeGreaterThan(40);
    expect(otherwise.signals).toEqual(plain.signals);
    expect(otherwise.streams).toEqual(plain.streams);
  }, 300_000);
});
