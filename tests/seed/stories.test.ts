import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { type DemoScenario, scenario } from "#seed/generate";
import { STORY_KINDS, storyOf } from "#seed/stories";
import type { BatchWritten } from "#server/terms/batch";
import { asRead } from "./asRead";

const SEEDS = [21, 22];
const demos = new Map(SEEDS.map((seed) => [seed, scenario("2031-06", seed)]));

test.each(SEEDS)("every story is told once and lies in the twelve months (seed %i)", async (seed) => {
  const { stories } = await demoOf(seed);
  expect(stories.map(({ kind }) => kind).sort()).toEqual([...STORY_KINDS].sort());
  for (const { kind, from, to } of stories)
    expect(from >= "2030-07-01" && to <= "2031-06-30" && from <= to, kind).toBe(true);
});

test.each(SEEDS)("yields show drying cut short, a tare left in and the wet season (seed %i)", async (seed) => {
  const demo = await demoOf(seed);
  const [short, tare] = [storyOf(demo.stories, "drying-cut-short"), storyOf(demo.stories, "tare-left-in")];
  const season = storyOf(demo.stories, "wet-season");
  expect(yieldIn(demo, "OJ", "2031-06-01", "2031-06-30")).toBeGreaterThan(
    1.07 * yieldIn(demo, "OJ", "2030-07-01", "2030-10-31"),
  );
  expect(yieldIn(demo, "OJ", short.from, "2031-06-30", "minutes")).toBeLessThan(
    0.95 * yieldIn(demo, "OJ", "2030-07-01", "2030-10-31", "minutes"),
  );
  expect(yieldIn(demo, "RK", tare.from, tare.to)).toBeGreaterThan(
    1.12 * yieldIn(demo, "RK", "2030-07-01", "2030-10-31"),
  );
  for (const site of ["SL", "PG", "CB", "QR"]) {
    const wet = yieldIn(demo, site, `${season.from.slice(0, 7)}-25`, season.to);
    expect(wet, site).toBeLessThan(0.97 * yieldIn(demo, site, "2030-07-01", "2030-10-31"));
  }
});

test.each(SEEDS)("gas jumps while the hose leaks (seed %i)", async (seed) => {
  const demo = await demoOf(seed);
  const leak = storyOf(demo.stories, "leaking-hose");
  const gas = (from: string, to: string) => {
    const rows = rowsOf(demo, "SL").filter(({ batch }) => batch !== null && batch.day >= from && batch.day <= to);
    const kg = rows.flatMap(({ fuel }) => fuel.map(({ said }) => (said.kind === "amount" ? said.amount.value : 0)));
    return sum(kg) / sum(rows.map(({ batch }) => batch?.fresh?.value ?? 0));
  };
  expect(gas(leak.from, leak.to)).toBeGreaterThan(1.3 * gas("2030-07-01", "2030-10-31"));
});

test.each(SEEDS)(
  "records show a copied block, a month sent twice, a correction, gaps and a nil month (seed %i)",
  async (seed) => {
    const demo = await demoOf(seed);
    const [block, twice] = [storyOf(demo.stories, "block-copied"), storyOf(demo.stories, "month-entered-twice")];
    const [late, sparse] = [storyOf(demo.stories, "late-correction"), storyOf(demo.stories, "days-not-logged")];
    const nothing = storyOf(demo.stories, "nothing-produced");
    const triples = new Map<string, number>();
    for (const { fresh, dried, minutes } of batchesOf(demo, "PG", block.from, block.to)) {
      const triple = `${fresh?.exact} ${dried?.exact} ${minutes?.exact}`;
      triples.set(triple, (triples.get(triple) ?? 0) + 1);
    }
    expect([...triples.values()].filter((times) => times > 1).length).toBeGreaterThan(20);

    const sentTwice = demo.logs.filter(({ site, month }) => site === "MS" && twice.from.startsWith(month));
    expect(sentTwice.length).toBe(2);
    expect(new Set(sentTwice.map(({ name }) => name)).size).toBe(2);
    const [first, second] = sentTwice.map((log) =>
      asRead(demo, log)
        .rows.flatMap(({ batch }) => batch ?? [])
        .map(contentOf),
    );
    expect(first).toEqual(second);

    const corrected = demo.logs.filter(({ site, month }) => site === "UF" && late.from.startsWith(month));
    const [before, after] = corrected.map((log) =>
      asRead(demo, log)
        .rows.flatMap(({ batch }) => batch ?? [])
        .map(contentOf),
    );
    expect(after?.filter((content, at) => content !== before?.[at]).length).toBe(late.size);
    const publication = demo.publications.find(({ site }) => site === "UF");
    expect(publication !== undefined && publication.at < (corrected[1]?.sentOn ?? "")).toBe(true);

    const days = new Set(batchesOf(demo, "CB", sparse.from, sparse.to).map(({ day }) => day)).size;
    expect(days).toBeGreaterThan(0.5 * 300);
    expect(days).toBeLessThan(0.68 * 300);
    expect(demo.logs.filter(({ site, month }) => site === "WH" && nothing.from.startsWith(month))).toEqual([]);
    expect(
      demo.declared.some(({ site, declarations }) => site === "WH" && declarations[0]?.kind === "nothing-produced"),
    ).toBe(true);
  },
);

test.each(SEEDS)("a site changes its method and a new one begins with nine batches (seed %i)", async (seed) => {
  const demo = await demoOf(seed);
  const changed = storyOf(demo.stories, "method-changed");
  const methods = batchesOf(demo, "QR", "2030-07-01", "2031-06-30");
  expect(methods.every(({ day, method }) => (method === "hot-air-cabinet") === day < changed.from)).toBe(true);
  expect(batchesOf(demo, "LH", "2030-07-01", "2031-06-30").length).toBe(9);
});

test("nothing outside the scenario reads its stories or truths", () => {
  const readers = ["server", "db", "app"]
    .flatMap((house) => readdirSync(house, { recursive: true, encoding: "utf8" }).map((name) => `${house}/${name}`))
    .filter((path) => /\.tsx?$/.test(path))
    .filter((path) => /#seed\/(?!load|generate)|\btruths\b/.test(readFileSync(path, "utf8")));
  expect(readers).toEqual([]);
});

async function demoOf(seed: number): Promise<DemoScenario> {
  const demo = await demos.get(seed);
  if (demo === undefined) throw new Error(`no scenario of seed ${seed}`);
  return demo;
}

function rowsOf(demo: DemoScenario, site: string) {
  return demo.logs
    .filter((log) => log.site === site)
    .flatMap((log) => asRead(demo, log).rows.filter(({ fate }) => fate === "counted"));
}

function batchesOf(demo: DemoScenario, site: string, from: string, to: string): BatchWritten[] {
  return rowsOf(demo, site).flatMap(({ batch }) =>
    batch !== null && batch.day >= from && batch.day <= to ? [batch] : [],
  );
}

/** Dried, or minutes, over fresh of the loads that say both. */
function yieldIn(
  demo: DemoScenario,
  site: string,
  from: string,
  to: string,
  of: "dried" | "minutes" = "dried",
): number {
  const both = batchesOf(demo, site, from, to).filter((batch) => batch.fresh !== null && batch[of] !== null);
  return sum(both.map((batch) => batch[of]?.value ?? 0)) / sum(both.map(({ fresh }) => fresh?.value ?? 0));
}

function contentOf({ day, number, fresh, dried, minutes }: BatchWritten): string {
  return [day, number, fresh?.exact, dried?.exact, minutes?.exact].join(" ");
}

function sum(values: readonly number[]): number {
  return values.reduce((all, value) => all + value, 0);
}
