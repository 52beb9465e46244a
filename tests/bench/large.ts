/**
 * Memory of `send FILE --by-site` on PostgreSQL: the most that the command's process ever held, for files of some numbers
 * of rows, each into a database of its own. Goals: at most 400 MB, and the same from 100,000 rows on.
 *
 * npx tsx tests/bench/large.ts [rows of each file, 20000 40000 by default]
 */
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import postgres from "postgres";
import { openStore } from "#db/client";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { readSettings } from "#server/settings";
import { OPERATOR } from "#server/terms/person";
import { throwAway } from "../setup/postgres";
import { backFile, siteCode } from "./backFile";
import { mostHeldBy } from "./memory";

const SITES = 20;
const given = process.argv.slice(2).map(Number);
const counts = given.length > 0 ? given : [20_000, 40_000];

const begun = await throwAway();
if (begun === null) throw new Error("this machine has no PostgreSQL");
const { urls, stop } = begun;
const folder = mkdtempSync(join(tmpdir(), "evendry-large-"));
for (const count of counts) {
  const name = `large_${count}`;
  const mighty = postgres(urls.superUrl, { max: 1, onnotice: () => {} });
  await mighty.unsafe(`create database ${name} owner evendry_owner`);
  await mighty.end();
  const at = (url: string) => url.replace(/\/[^/]*$/, `/${name}`);
  const env = {
    ...process.env,
    DATA_DIR: folder,
    DATABASE_URL: at(urls.loginUrl),
    DATABASE_OWNER_URL: at(urls.ownerUrl),
  };
  const store = await openStore({
    dataDir: folder,
    databaseUrl: env.DATABASE_URL,
    databaseOwnerUrl: env.DATABASE_OWNER_URL,
  });
  await begin(store, () => new Date());
  const api = callerOf({ store, person: OPERATOR, clock: () => new Date(), bounds: readSettings().bounds });
  for (let site = 0; site < SITES; site++) {
    const declarations = [
      { kind: "open", from: "1999-01-01", value: {} },
      { kind: "method", from: "1999-01-01", value: { method: "sand-pan" } },
    ] as const;
    await api.sites.open({ code: siteCode(site), declarations: [...declarations] });
  }
  await store.close();
  const file = join(folder, `${name}.csv`);
  writeFileSync(file, backFile(count, SITES));
  const started = performance.now();
  const most = await mostHeld(["server/evendry.mjs", "send", file, "--by-site", "--json"], env);
  const seconds = (performance.now() - started) / 1000;
  console.log(`${count} rows: ${most.mb.toFixed(0)} MB at most, ${seconds.toFixed(0)} s, ${most.said.slice(0, 400)}`);
}
rmSync(folder, { recursive: true, force: true });
stop();

/** Runs a command and looks at what it holds: the kernel keeps the most since its start. */
function mostHeld(words: readonly string[], env: NodeJS.ProcessEnv): Promise<{ mb: number; said: string }> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, words, { env, stdio: ["ignore", "pipe", "inherit"] });
    let said = "";
    let mb = 0;
    child.stdout.on("data", (text: Buffer) => {
      said += text.toString();
    });
    const look = setInterval(() => {
      mb = Math.max(mb, mostHeldBy(child.pid));
    }, 100);
    child.on("exit", (code) => {
      clearInterval(look);
      if (code === 0) resolve({ mb, said });
      else reject(new Error(`the command ended with ${code}`));
    });
  });
}
