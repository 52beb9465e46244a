import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { runCommand } from "#server/cli";
import charts from "../files/reference/drift/charts.json";

const cwd = mkdtempSync(join(tmpdir(), "evendry-watch-"));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

async function json(...argv: string[]): Promise<never> {
  let out = "";
  let err = "";
  const exit = await runCommand([...argv, "--json"], {
    cwd,
    out: (text) => (out += text),
    err: (text) => (err += text),
  });
  if (exit !== 0) throw new Error(`${exit}: ${err}`);
  return JSON.parse(out) as never;
}

const day = (i: number) => new Date(Date.UTC(2031, 0, 1 + i)).toISOString().slice(0, 10);

// Lucas & Saccucci 1990, table 3 (as quoted in the help pages of R's package spc): EWMA 0.03, 2.437 and 0.5, 3.071.
test.each([
  [["--lambda", "0.03", "--limit", "2.437"], 500, 0],
  [["--lambda", "0.03", "--limit", "2.437", "--shift", "0.25"], 76.7, 1],
  [["--lambda", "0.5", "--limit", "3.071", "--shift", "1"], 17.5, 1],
])("runlength of an EWMA %j is the published %f", async (words, published, digits) => {
  const { mean } = await json("runlength", "--chart", "ewma", ...words);
  expect(mean).toBeCloseTo(published, digits - 1);
});

test("runlength gives the limit of three standard deviations for the mean that belongs to it", async () => {
  expect(await json("runlength", "--chart", "individuals", "--mean", "370.398")).toMatchObject({
    limit: expect.closeTo(3, 4),
    shift: 0,
    median: 257,
  });
});

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4: 20 values, lambda 0.3, target 50, s = 2.0539.
test("watch draws the handbook's EWMA chart with its limits, and nothing is out", async () => {
  const values = [
    52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1,
  ];
  writeFileSync(join(cwd, "ewma.csv"), `day,value\n${values.map((value, i) => `${day(i)},${value}`).join("\n")}\n`);
  const shown = await json(
    "watch",
    "ewma.csv",
    "--chart",
    "ewma",
    "--lambda",
    "0.3",
    "--target",
    "50",
    "--spread",
    "2.0539",
  );
  expect(shown).toMatchObject({ signals: [] });
  const { points } = shown as { points: { statistic: number; low: number; high: number }[] };
  expect(points[0]).toMatchObject({
    statistic: expect.closeTo(50.6, 9),
    low: expect.closeTo(47.4113, 3),
    high: expect.closeTo(52.5884, 3),
  });
  expect(points.slice(0, 4).map(({ statistic }) => statistic.toFixed(2))).toEqual(["50.60", "49.52", "50.56", "50.18"]);
  expect(points.at(-1)?.statistic.toFixed(2)).toBe("51.99");
});

test("watch finds a step in ratios, says since when and by how much, and asks about a single wild day apart", async () => {
  let state = 7;
  const random = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32 - 0.5;
  };
  const lines = Array.from({ length: 90 }, (_, i) => {
    const ratio = (i < 55 ? 0.32 : 0.34) * (1 + 0.06 * (random() + random())) * (i === 30 ? 4 : 1);
    return `${day(i)},${(10 * ratio).toFixed(4)},10`;
  });
  writeFileSync(join(cwd, "yield.csv"), `day,numerator,denominator\n${lines.join("\n")}\n`);
  const { signals } = (await json("watch", "yield.csv")) as {
    signals: {
      kind: string;
      day?: string;
      sinceFrom?: string;
      sinceTo?: string;
      low?: number;
      high?: number;
    }[];
  };
  const [first] = signals.filter(({ kind }) => kind === "drift");
  expect(first?.sinceFrom && first.sinceFrom <= day(55) && (first.sinceTo ?? "") >= day(53)).toBe(true);
  // the first signal comes on the second day of the new level and knows little of it; the last knows it well
  const last = signals.findLast(({ kind }) => kind === "drift");
  const step = 0.34 / 0.32 - 1;
  expect((last?.low ?? 1) < step && (last?.high ?? 0) > step, JSON.stringify(last)).toBe(true);
  const [wild, ...later] = signals.filter(({ kind }) => kind === "question").map(({ day: on }) => on ?? "");
  expect(wild).toBe(day(30));
  expect(later.filter((on) => on < day(55))).toEqual([]);
});

async function written(file: string, heading: string, lines: readonly string[]): Promise<string> {
  writeFileSync(join(cwd, file), `${heading}\n${lines.join("\n")}\n`);
  return file;
}

async function plain(...argv: string[]): Promise<{ exit: number; out: string; err: string }> {
  const said = { exit: 0, out: "", err: "" };
  said.exit = await runCommand(argv, { cwd, out: (text) => (said.out += text), err: (text) => (said.err += text) });
  return said;
}

interface Shown {
  readonly parameters: Record<string, number | null>;
  readonly points: Record<string, string | number | null>[];
  readonly signals: { day: string; since: string; size: number; direction: string; value: number; kind?: string }[];
  readonly leftOut: string[];
}

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3 (figures from memory, recomputed).
const CUSUM_DAYS = charts.cusum[0]!.values.map((value, i) => `${day(i)},${value}`);
test("watch draws the handbook's CUSUM: signals from the 14th point, with since when and how much", async () => {
  const file = await written("cusum.csv", "day,value", CUSUM_DAYS);
  const words = ["watch", file, "--chart", "cusum", "--target", "325", "--allowance", "0.3175"];
  const { points, signals } = (await json(...words, "--limit", "4.1959", "--spread", "1.27")) as Shown;
  expect(points[13]).toMatchObject({ up: expect.closeTo(4.94, 9), statistic: expect.closeTo(4.94, 9), high: 4.1959 });
  expect(points[13]!.score).toBeCloseTo(2.25 / 1.27, 9);
  expect(signals.map((signal) => signal.day)).toEqual([13, 14, 15, 16, 17, 18, 19].map(day));
  // the sum left zero with the 13th point: 328.325 and 327.25 are 3.325 and 2.25 above 325
  expect(signals[0]).toMatchObject({ since: day(12), direction: "up", size: expect.closeTo((3.325 + 2.25) / 2, 9) });
});

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (figures from memory, recomputed); limits with d2 = 2 / sqrt(pi).
test("watch draws the handbook's chart of single values, and takes a known target and spread instead", async () => {
  const { values } = charts.individuals[0]!;
  const file = await written("flow.csv", "value;day", values.map((value, i) => `${value};${day(i)}`).reverse());
  const own = (await json("watch", file, "--chart", "individuals")) as Shown;
  expect(own.parameters).toMatchObject({ centre: expect.closeTo(50.81, 9), high: expect.closeTo(55.80241, 4) });
  expect(own.points.map(({ value }) => value)).toEqual(values);
  expect(own.signals).toEqual([]);
  const given = (await json(
    ...["watch", file, "--chart", "individuals", "--target", "50", "--spread", "1", "--limit", "3"],
  )) as Shown;
  expect(given.signals[0]).toMatchObject({ day: day(8), since: day(8), size: expect.closeTo(3.6, 9), direction: "up" });
  expect(given.points[8]).toMatchObject({ score: expect.closeTo(3.6, 9), low: 47, high: 53 });
});

test("--accept gives each chart the limit whose mean run is the points of a month", async () => {
  const file = await written(
    "calm.csv",
    "day,value",
    Array.from({ length: 59 }, (_, i) => `${day(i)},${i % 7}`),
  );
  for (const [chart, words] of [
    ["individuals", []],
    ["ewma", ["--lambda", "0.2"]],
    ["cusum", ["--allowance", "0.5"]],
  ] as const) {
    const shown = (await json(
      ...["watch", file, "--chart", chart, ...words, "--target", "3", "--spread", "1", "--accept", "0.1"],
    )) as Shown;
    const asked = chart === "ewma" ? words : chart === "cusum" ? words : [];
    const { mean } = (await json(
      ...["runlength", "--chart", chart, ...asked, "--limit", String(shown.parameters.limit)],
    )) as { mean: number };
    expect(mean, chart).toBeCloseTo(29.5 / 0.1, 4); // 59 points in two months, one false alarm in ten months
  }
});

test("watch takes the drift chart's parameters, rows of one day together, and leaves out what has no logarithm", async () => {
  const lines = Array.from({ length: 40 }, (_, i) => [`${day(i)},1.5,5`, `${day(i)},${1.5 + (i % 3) / 10},5`]).flat();
  lines[31] = `${day(15)},-1.5,5`;
  const file = await written("two.csv", "day,numerator,denominator", [...lines].reverse());
  const words = ["--omega", "0", "--rho", "0", "--d0", "8", "--s2", "0.001", "--learn", "20", "--limit", "2.5"];
  const shown = (await json("watch", file, ...words)) as Shown;
  expect(shown.parameters).toMatchObject({ omega: 0, rho: 0, d0: 8, s2: 0.001, learn: 20, accept: null });
  expect(shown.parameters.edge).toBeCloseTo(2.5 * Math.sqrt(0.1 / 1.9), 12);
  expect(shown.points).toHaveLength(39);
  expect(shown.leftOut).toEqual([day(15)]);
  expect(shown.points[1]!.value).toBeCloseTo(0.31, 12);
  expect(shown.points[19]).toMatchObject({
    state: "learning",
    score: null,
    statistic: null,
    high: shown.parameters.edge!,
  });
  expect(typeof shown.points[20]!.score).toBe("number");
});

test("watch and runlength say what they take, and refuse what they would pass over", async () => {
  for (const command of ["watch", "runlength"]) {
    const { exit, out } = await plain(command, "--help");
    expect(exit).toBe(0);
    expect(out).toContain(`${command} `);
    expect(out).toContain("--json prints {");
  }
  const file = await written("few.csv", "day,value", [`${day(0)},3`]);
  for (const [words, sentence] of [
    [["watch", file, "--chart", "ewma", "--lambda", "0.2", "--target", "3"], "--chart ewma needs --spread"],
    [["watch", file, "--chart", "pie"], "--chart is drift, individuals, ewma or cusum"],
    [["watch", file, "--chart", "individuals", "--lambda", "0.1"], "does not take --lambda"],
    [["watch", file, "--chart", "individuals"], "needs two of them"],
    [["watch", file, "--limit", "3", "--accept", "1"], "either --limit or --accept"],
    [["watch", file, "--limit", "14"], "never pass"],
    [["watch", file, "--accept", "many"], "--accept is a number, not many"],
    [["watch"], "which one file"],
    [["runlength", "--chart", "ewma", "--limit", "3", "--mean", "500"], "either --limit or --mean"],
    [["runlength", "--chart", "ewma", "--clamp", "3", "--limit", "14"], "--limit is from"],
    [["runlength", "--chart", "individuals", "--limit", "9"], "never signals"],
    [["runlength", "--chart", "individuals", "--lambda", "0.1", "--limit", "3"], "belong to --chart ewma"],
    [["runlength", "--chart", "cusum", "--mean", "2"], "--mean is from 3"],
  ] as const) {
    const { exit, err } = await plain(...words);
    expect(exit, words.join(" ")).toBe(2);
    expect(err, words.join(" ")).toContain(sentence);
  }
});

test.each([
  [
    "day,value",
    ["2031-01-01,3", "2031-01-02,3.5.1"],
    "Row 3, column value: value is not a number such as 12.5 (“3.5.1”)",
  ],
  ["day,value", ["2031-01-01,3", "2031-01-02,"], "Row 3, column value: value is empty; leave the row out"],
  ["day,value", ["2031-01-01,3", "2031-01-01,4"], "Row 3, column day: 2031-01-01 stands twice"],
  ["day,numerator,denominator", ["2031-01-01,3,0"], "Row 2, column denominator: 0 is nothing to divide by"],
  ["day,numerator,denominator", ["2031-01-01,0,4"], "No row can be used"],
  ["day,value", [], "has headings and no row under them"],
])("watch refuses a file with %s and %j", async (heading, lines, sentence) => {
  const { exit, err } = await plain("watch", await written("wrong.csv", heading, lines));
  expect(exit).toBe(1);
  expect(err).toContain(sentence);
});

// Lucas & Saccucci 1990, table 3: EWMA 0.5 with 3.071 has a mean of 500; Lucas & Crosier 1982, table 1: CUSUM 0.5 with 4
// and 168 (both as quoted in the help pages of R's package spc).
test("runlength turns a mean into the published limit, and a calm chart finds a change a little sooner", async () => {
  const ewma = (await json("runlength", "--chart", "ewma", "--lambda", "0.5", "--mean", "500")) as { limit: number };
  expect(ewma.limit).toBeCloseTo(3.071, 3);
  const cusum = (await json("runlength", "--chart", "cusum", "--mean", "167.68")) as { limit: number };
  expect(cusum.limit).toBeCloseTo(4, 3);
  const words = ["runlength", "--chart", "ewma", "--limit", "2.7", "--clamp", "3", "--shift", "1"];
  const [zero, calm] = (await Promise.all([json(...words), json(...words, "--begun", "calm")])) as { mean: number }[];
  expect(calm!.mean).toBeLessThan(zero!.mean);
  expect(zero!.mean - calm!.mean).toBeLessThan(1);
});

test("watch names the row that it cannot read", async () => {
  writeFileSync(join(cwd, "bad.csv"), "day,value\n2031-01-01,3\n2031-02-30,4\n");
  await expect(json("watch", "bad.csv")).rejects.toThrow("1: Row 3, column day: “2031-02-30” is not a day");
  writeFileSync(join(cwd, "worse.csv"), "when,what\n2031-01-01,3\n");
  await expect(json("watch", "worse.csv")).rejects.toThrow("The headings are to be day");
});
