import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "evendry-evidence-"));
  writeFileSync(
    join(folder, "march.csv"),
    "Date,Batch no,Fresh (kg),Dried (kg)\n2021-03-03,=1+1,10,3.3\n2021-03-04,2,ten,3\n",
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function evendry(...words: string[]): { out: string; err: string; exit: number | null } {
  const program = join(import.meta.dirname, "../../server/evendry.mjs");
  const env = { ...process.env, DATA_DIR: join(folder, "data"), DATABASE_URL: "" };
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, ...words], {
    cwd: folder,
    encoding: "utf8",
    env,
  });
  return { out: stdout, err: stderr, exit: status };
}

test("evidence writes every table and one workbook, and says the hash of each", () => {
  expect(evendry("sites", "add", "OJ", "--name", "Old Jetty", "--from", "2021-01-01").exit).toBe(0);
  expect(evendry("send", "march.csv", "--site", "OJ").exit).toBe(0);
  const taken = evendry(
    "evidence",
    "--site",
    "OJ",
    "--from",
    "2021-03",
    "--to",
    "2021-03",
    "--out-dir",
    "taken",
    "--json",
  );
  expect([taken.exit, taken.err]).toEqual([0, ""]);
  const written = JSON.parse(taken.out) as { file: string; bytes: number; sha256: string }[];
  expect(written.map(({ file }) => file).sort()).toEqual(readdirSync(join(folder, "taken")).sort());
  for (const { file, bytes, sha256 } of written) {
    const kept = readFileSync(join(folder, "taken", file));
    expect([kept.length, createHash("sha256").update(kept).digest("hex")], file).toEqual([bytes, sha256]);
  }
  const text = (table: string) =>
    readFileSync(join(folder, "taken", written.find(({ file }) => file.startsWith(`${table}_`))?.file ?? ""), "utf8");
  expect(text("batches").split("\r\n")[1]).toContain("OJ,2021-03-03,2021-03,other,OJ 2021-03 other,'=1+1,");
  expect(text("rows-not-counted")).toContain("“ten” is not a weight that can be read.");
  expect(written.some(({ file }) => file.endsWith(".xlsx"))).toBe(true);

  const lacking = evendry("evidence", "--site", "OJ", "--from", "2021-03");
  expect([lacking.exit, lacking.out]).toEqual([2, ""]);
  expect(lacking.err).toContain("--out-dir");
}, 120_000);
