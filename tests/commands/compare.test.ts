import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { closeTheStore } from "#db/client";
import { runCommand } from "#server/cli";

const dataDir = mkdtempSync(join(tmpdir(), "evendry-compare-"));
beforeAll(() => {
  process.env.DATA_DIR = dataDir;
  delete process.env.DATABASE_URL;
});
afterAll(async () => {
  await closeTheStore();
  delete process.env.DATA_DIR;
  rmSync(dataDir, { recursive: true, force: true });
});

async function run(...argv: string[]) {
  const said = { out: "", err: "" };
  const exit = await runCommand(argv, {
    cwd: dataDir,
    out: (text) => (said.out += text),
    err: (text) => (said.err += text),
  });
  return { exit, ...said };
}

test("compare, signals and the programme's own facts answer on an empty programme", async () => {
  expect(
    await run("sites", "add", "OJ", "--name", "Old Jetty", "--method", "sand-pan", "--from", "2031-01-01"),
  ).toMatchObject({
    exit: 0,
  });
  const compared = await run("compare", "--month", "2031-05");
  expect(compared).toMatchObject({ exit: 0, err: "" });
  expect(compared.out).toContain("May: the one site that owed a log has not sent it.");
  expect(JSON.parse((await run("compare", "--month", "2031-05", "--json")).out)).toMatchObject({
    month: "2031-05",
    rows: [{ site: "OJ", name: "Old Jetty" }],
  });
  const signals = await run("signals", "--from", "2031-01", "--to", "2031-05");
  expect(signals.out).toContain("No signal was raised from January 2031 to May 2031.");
  expect(JSON.parse((await run("signals", "--to", "2031-05", "--json")).out)).toEqual([]);
});

test("the programme declares the false alarms it accepts, and nothing that is a site's", async () => {
  const declared = await run("facts", "programme", "false-alarms", "--from", "2031-01-01", "--per-month", "2");
  expect(declared).toMatchObject({ exit: 0 });
  expect((await run("facts", "programme")).out).toContain('false-alarms   {"reading":"on-average","perMonth":2}');
  expect(await run("facts", "programme", "pans", "--from", "2031-01-01", "--pans", "2")).toMatchObject({ exit: 2 });
  expect(await run("facts", "programme", "false-alarms", "--from", "2031-01-01", "--per-month", "0")).toMatchObject({
    exit: 2,
  });
});

test("a wrong call says how it is right", async () => {
  expect(await run("compare")).toMatchObject({ exit: 2, err: expect.stringContaining("--month YYYY-MM") });
  expect(await run("signals", "--from", "2031-05", "--to", "2031-01")).toMatchObject({ exit: 2 });
  expect(await run("signals", "--site", "XX", "--to", "2031-01")).toMatchObject({ exit: 1 });
});
