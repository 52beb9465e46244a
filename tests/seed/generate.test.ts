import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { type DemoScenario, scenario } from "#seed/generate";
import { SITES } from "#seed/scenario";
import { monthsBetween } from "#server/terms/days";
import { FACTS } from "#server/terms/facts";
import { asRead, sumsOf } from "./asRead";

const LAST = "2031-06";
const SEEDS = [1, 2, 3, 4, 5];
const demos = new Map<number, Promise<DemoScenario>>();

/** One scenario a seed for all tests of this file. */
function demoOf(seed: number): Promise<DemoScenario> {
  const made = demos.get(seed) ?? scenario(LAST, seed);
  demos.set(seed, made);
  return made;
}

test("the same month and seed give the same bytes, another seed gives other bytes in every log", async () => {
  const hashes = async (demo: Promise<DemoScenario>) =>
    (await demo).logs.map(({ bytes, site, month, name, sentOn }) =>
      [site, month, name, sentOn, sha256(bytes)].join(" "),
    );
  const bytes = async (demo: Promise<DemoScenario>) => new Set((await demo).logs.map((log) => sha256(log.bytes)));
  expect(await hashes(scenario(LAST, 1))).toEqual(await hashes(demoOf(1)));
  const [one, other] = [await bytes(demoOf(1)), await bytes(demoOf(2))];
  expect([...one].filter((hash) => other.has(hash))).toEqual([]);
});

test("a site's logs are the same whether others are generated or not", async () => {
  const some = await scenario(LAST, 3, ["RK", "WH"]);
  const all = (await demoOf(3)).logs.filter(({ site }) => site === "RK" || site === "WH");
  expect(some.logs.map(({ name, bytes }) => [name, sha256(bytes)])).toEqual(
    all.map(({ name, bytes }) => [name, sha256(bytes)]),
  );
});

test("the scenario is ten sites over twelve months with about 15,000 loads", async () => {
  for (const seed of SEEDS) {
    const { logs, sites, truths } = await demoOf(seed);
    expect(sites.length).toBe(10);
    expect([...new Set(logs.map(({ month }) => month))].sort()).toEqual(monthsBetween("2030-07", LAST));
    const loads = truths.reduce((sum, truth) => sum + truth.loads, 0);
    expect(loads, `seed ${seed}`).toBeGreaterThan(13_500);
    expect(loads, `seed ${seed}`).toBeLessThan(16_500);
  }
});

test("logs differ in language, measure, fuel, dryer and form", () => {
  const said = SITES.flatMap(({ declares }) => declares("2031-01-01"));
  const values = (kind: keyof typeof FACTS) =>
    new Set(said.filter((one) => one.kind === kind).map(({ value }) => JSON.stringify(value)));
  expect(values("language").size).toBe(6);
  expect(values("main-fuel").size).toBe(4);
  expect(new Set(SITES.map(({ nature }) => nature.scale.unit))).toEqual(new Set(["kg", "g", "lb"]));
  expect(SITES.filter(({ nature }) => nature.method === "sand-pan").length).toBe(7);
});

test("at the end six sites dry on sand over gas and weigh at the same moments, so that fuel can be compared", async () => {
  const { sites, declared } = await demoOf(1);
  const last = new Map<string, Map<string, string>>();
  for (const { site, declarations } of [...sites.map(({ code, ...rest }) => ({ site: code, ...rest })), ...declared])
    for (const { kind, value } of declarations)
      last.set(site, (last.get(site) ?? new Map<string, string>()).set(kind, JSON.stringify(value)));
  const shared = ["method", "main-fuel", "fresh-weighed", "dried-weighed"];
  const alike = [...last].map(([site, facts]) => ({ site, as: shared.map((kind) => facts.get(kind)).join(" ") }));
  const jetty = alike.find(({ site }) => site === "OJ")?.as ?? "";
  expect(jetty).toContain("sand-pan");
  expect(jetty).toContain("lpg");
  expect(alike.filter(({ as }) => as === jetty).map(({ site }) => site)).toEqual(["OJ", "SL", "UF", "PG", "LH", "QR"]);
});

test("leaving stories out leaves everything that they do not touch byte for byte the same", async () => {
  const without = await scenario(LAST, 1, null, ["leaking-hose", "month-entered-twice", "days-not-logged"]);
  const hashes = ({ logs }: DemoScenario) => new Map(logs.map(({ name, bytes }) => [name, sha256(bytes)]));
  const [all, some] = [hashes(await demoOf(1)), hashes(without)];
  const changed = [...all].filter(([name, hash]) => some.get(name) !== hash).map(([name]) => name.split(" ")[0]);
  expect(new Set(changed)).toEqual(new Set(["Salt", "Cattle", "Market"]));
  expect(all.size - some.size).toBe(1); // the month entered twice is there once
  expect(changed.filter((site) => site === "Salt").length).toBeLessThan(5);
});

test("logs are sent in order, each after the end of its month", async () => {
  for (const seed of SEEDS) {
    const { logs, startsOn } = await demoOf(seed);
    expect(logs.map(({ sentOn }) => sentOn)).toEqual(logs.map(({ sentOn }) => sentOn).sort());
    for (const { month, sentOn, name } of logs) expect(sentOn > `${month}-31`, `seed ${seed} ${name}`).toBe(true);
    expect(logs.every(({ sentOn }) => sentOn > startsOn)).toBe(true);
  }
});

test("everything declared is a fact that the programme knows", async () => {
  const { sites, declared } = await demoOf(1);
  for (const { kind, value } of [...sites, ...declared].flatMap(({ declarations }) => declarations))
    expect(FACTS[kind].safeParse(value).error, `${kind} ${JSON.stringify(value)}`).toBeUndefined();
});

test.each(SEEDS)("intake reads every log of seed %i, and what it reads is what was dried", async (seed) => {
  const demo = await demoOf(seed);
  const wrong: string[] = [];
  demo.logs.forEach((log, at) => {
    const reading = asRead(demo, log);
    const truth = demo.truths[at];
    const { rows, counted, held, setAside } = reading.counts;
    if (rows !== counted + held + setAside) wrong.push(`${log.name}: rows do not add up`);
    if (reading.questions.length > 0) wrong.push(`${log.name}: asks ${reading.questions.map(({ code }) => code)}`);
    if (held > 2) wrong.push(`${log.name}: ${held} rows held`);
    for (const [what, read] of Object.entries(sumsOf(reading))) {
      const written = Object.entries(truth ?? {}).find(([name]) => name === what)?.[1];
      if (written === undefined || Math.abs(read - written) > 1e-6)
        wrong.push(`${log.name}: ${what} ${read}, written ${written}`);
    }
  });
  expect(wrong).toEqual([]);
});

test("totals that logs state themselves are those of their rows, unless a row waits for somebody", async () => {
  const demo = await demoOf(1);
  let compared = 0;
  for (const log of demo.logs) {
    const { totals, counts } = asRead(demo, log);
    for (const { written, read, at } of counts.held === 0 ? totals : []) {
      expect(read, `${log.name} ${at.row}${at.column}`).toBeCloseTo(written, 2);
      compared++;
    }
  }
  expect(compared).toBeGreaterThan(100);
});

function sha256(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}
