import { once } from "node:events";
import { chmodSync, cpSync, existsSync, mkdirSync } from "node:fs";
import { createServer } from "node:http";
import { join } from "node:path";
import postgres from "postgres";
import { afterAll, expect, inject, onTestFinished, test } from "vitest";
import { addressOf, type Ended, freshFolder, root, runNode, runStart, stopped } from "../setup/program";

const folder = freshFolder();
afterAll(() => folder.remove());

/** A start that could not be: nothing on the output but what was done before, one sentence, exit 1. */
function refused({ exit, err }: Ended, sentence: string | RegExp): void {
  expect(err.trimEnd().split("\n")).toEqual([expect.stringMatching(sentence)]);
  expect(err).toMatch(/\.\n$|\d\n$/);
  expect(exit).toBe(1);
}

/** Runs what follows without root's leave to write anywhere; nobody else has that leave anyway. */
const withoutPrivilege =
  process.getuid?.() === 0 ? ["setpriv", "--bounding-set", "-dac_override,-dac_read_search"] : [];

test("an old Node is told which one is needed", async () => {
  const pretend = `Object.defineProperty(process, "versions", { value: { ...process.versions, node: "18.20.4" } })`;
  const { ended } = runNode(["--import", `data:text/javascript,${encodeURIComponent(pretend)}`, "server/start.mjs"]);
  refused(await ended, /^Evendry needs Node\.js 20\.19 or newer; this is 18\.20\.4\./);
});

test("an option that is not there, and a port that is none, are said so", async () => {
  refused(await runStart(["--prot", "1"]).ended, /^npm start does not know --prot\./);
  refused(await runStart(["--port", "12x"]).ended, /^The port must be a whole number/);
});

test("an address that this machine does not have is said so", async () => {
  refused(await runStart(["--host", "192.0.2.1"]).ended, /^This machine has no address 192\.0\.2\.1 to listen on/);
});

test("a port that another program holds is named, with the way out", async () => {
  const other = createServer((_request, response) => response.end("something else"));
  other.listen(0, "127.0.0.1");
  await once(other, "listening");
  onTestFinished(() => void other.close());
  const bound = other.address();
  const port = bound !== null && typeof bound === "object" ? bound.port : 0;
  refused(
    await runStart(["--port", String(port)]).ended,
    `^Port ${port} is used by another program\\. .*--port ${port + 1}$`,
  );
});

test("a setting that cannot be is named", async () => {
  const { ended } = runStart(["--port", "0"], { DATA_DIR: join(folder.path, "a"), MAX_ROWS: "lots" });
  refused(await ended, /^The setting MAX_ROWS must be a whole number from 1 to 1000000\.$/);
});

test("a data folder that cannot be written is named", async () => {
  const path = join(folder.path, "locked");
  mkdirSync(path);
  chmodSync(path, 0o500);
  const { ended } = runStart(["--port", "0"], { DATA_DIR: path }, withoutPrivilege);
  refused(await ended, `^The data folder ${path} cannot be written\\.`);
});

test("a program folder that cannot be written is named when packages are missing", async () => {
  const copy = join(folder.path, "program");
  mkdirSync(join(copy, "server"), { recursive: true });
  for (const name of ["package.json", "package-lock.json", "server/start.mjs", "server/front"]) {
    cpSync(join(root, name), join(copy, name), { recursive: true });
  }
  chmodSync(copy, 0o500);
  const { ended } = runNode([join(copy, "server/start.mjs"), "--port", "0"], {}, withoutPrivilege);
  refused(await ended, `^Packages must be installed in ${copy}, and that folder cannot be written\\.$`);
  chmodSync(copy, 0o700);
});

test("a server of ours on that port, or on that data folder, is recognised", async () => {
  const DATA_DIR = join(folder.path, "shared");
  const first = runStart(["--port", "0", "--empty"], { DATA_DIR });
  const address = await addressOf(first);
  const { port } = new URL(address);
  refused(await runStart(["--port", port]).ended, `^Evendry is already running at http://127\\.0\\.0\\.1:${port}\\.$`);
  refused(
    await runStart(["--port", "0"], { DATA_DIR }).ended,
    `^The data folder ${DATA_DIR} is in use by process \\d+\\.`,
  );
  expect(await stopped(first)).toMatchObject({ exit: 0, err: "" });
});

test("a database that does not answer is said so", async () => {
  const DATA_DIR = join(folder.path, "b");
  const { ended } = runStart(["--port", "0"], { DATA_DIR, DATABASE_URL: "postgres://nobody:x@127.0.0.1:1/none" });
  refused(await ended, /^The database at DATABASE_URL does not answer/);
});

const urls = inject("postgres");

test.skipIf(urls === null)("a sign-in that the database refuses is said so", async () => {
  const wrong = new URL(urls!.loginUrl);
  wrong.password = "wrong";
  const { ended } = runStart(["--port", "0"], { DATA_DIR: join(folder.path, "c"), DATABASE_URL: wrong.href });
  refused(await ended, /^The database at DATABASE_URL refused the sign-in/);
});

test.skipIf(urls === null)("a database that is too old is said so", async () => {
  // A role for which an older version's number stands before the true one.
  const url = new URL(urls!.loginUrl);
  const client = postgres(urls!.superUrl, { max: 1, onnotice: () => {} });
  await client.unsafe(`create role old_login login password '${url.password}'`);
  await client.unsafe("create schema old");
  await client.unsafe("grant usage on schema old to old_login");
  await client.unsafe(
    "create function old.current_setting(text) returns text language sql as $$ select case $1 when 'server_version_num' then '140011' else pg_catalog.current_setting($1) end $$",
  );
  await client.unsafe("alter role old_login set search_path = old, pg_catalog, public");
  await client.end();
  url.username = "old_login";
  const { ended } = runStart(["--port", "0"], { DATA_DIR: join(folder.path, "d"), DATABASE_URL: url.href });
  refused(await ended, /^The database is PostgreSQL 14; Evendry needs 15 or newer\.$/);
});

test("none of these left a data folder behind that a later start would trip over", () => {
  for (const name of ["a", "b"]) expect(existsSync(join(folder.path, name, "in-use"))).toBe(false);
});
