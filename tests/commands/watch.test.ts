import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { runCommand } from "#server/cli";

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
      change?: number;
      direction?: string;
    }[];
  };
  const [first] = signals.filter(({ kind }) => kind === "drift");
  expect(first?.sinceFrom && first.sinceFrom <= day(55) && (first.sinceTo ?? "") >= day(53)).toBe(true);
  expect(first?.change).toBeGreaterThan(0.03);
  const [wild, ...later] = signals.filter(({ kind }) => kind === "question").map(({ day: on }) => on ?? "");
  expect(wild).toBe(day(30));
  expect(later.filter((on) => on < day(55))).toEqual([]);
});

test("watch names the row that it cannot read", async () => {
  writeFileSync(join(cwd, "bad.csv"), "day,value\n2031-01-01,3\n2031-02-30,4\n");
  await expect(json("watch", "bad.csv")).rejects.toThrow("1: Row 3: “2031-02-30” is not a day");
  writeFileSync(join(cwd, "worse.csv"), "when,what\n2031-01-01,3\n");
  await expect(json("watch", "worse.csv")).rejects.toThrow("The headings are to be day");
});
