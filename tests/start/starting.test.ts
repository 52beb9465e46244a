import { once } from "node:events";
import { existsSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { afterAll, expect, inject, test } from "vitest";
import { addressOf, freshFolder, runNode, runStart, stopped } from "../setup/program";

const folder = freshFolder();
afterAll(() => folder.remove());

test("a second start takes seconds, keeps what there is, and tells no sign-ins again", async () => {
  const DATA_DIR = join(folder.path, "kept");
  const first = runStart(["--port", "0"], { DATA_DIR });
  const address = await addressOf(first);
  expect((await fetch(address)).status).toBe(200);
  expect(first.said.out).not.toMatch(/\b[a-z2-9]{4}(-[a-z2-9]{4}){3}\b/); // no password where others may read it
  const sites = await runNode(["server/evendry.mjs", "sites", "list", "--json"], { DATA_DIR }).ended;
  expect(await stopped(first)).toMatchObject({ exit: 0, err: "" });

  const signIns = join(DATA_DIR, "sign-ins.txt");
  rmSync(signIns, { force: true });
  const began = performance.now();
  const second = runStart(["--port", "0"], { DATA_DIR });
  await addressOf(second);
  expect(performance.now() - began).toBeLessThan(20_000);
  expect(existsSync(signIns)).toBe(false);
  expect(await runNode(["server/evendry.mjs", "sites", "list", "--json"], { DATA_DIR }).ended).toEqual(sites);
  expect(await stopped(second)).toMatchObject({ exit: 0, err: "" });
});

test("commands go to the server that holds the database, and work without one", async () => {
  const variables = { DATA_DIR: join(folder.path, "empty") };
  const server = runStart(["--port", "0", "--empty"], variables);
  await addressOf(server);
  expect(statSync(join(variables.DATA_DIR, "evendry.sock")).mode & 0o777).toBe(0o600);
  const throughServer = await runNode(["server/evendry.mjs", "sites", "list", "--json"], variables).ended;
  expect(throughServer).toEqual({ exit: 0, out: "[]\n", err: "" });
  const unknown = await runNode(["server/evendry.mjs", "no-such-command"], variables).ended;
  expect(unknown).toMatchObject({ exit: 2, out: "" });
  expect(await stopped(server)).toMatchObject({ exit: 0, err: "" });
  const alone = await runNode(["server/evendry.mjs", "sites", "list", "--json"], variables).ended;
  expect(alone).toEqual(throughServer);
});

test("a relative path means the folder where the person stands, not the program's", async () => {
  writeFileSync(join(folder.path, "june.csv"), "Date,Fresh (kg),Dried (kg)\n2031-06-02,10,3.1\n2031-06-03,12,3.9\n");
  const variables = { DATA_DIR: join(folder.path, "read"), npm_lifecycle_event: "evendry", INIT_CWD: folder.path };
  const { exit, out, err } = await runNode(["server/evendry.mjs", "read", "june.csv", "--json"], variables).ended;
  expect({ exit, err }).toEqual({ exit: 0, err: "" });
  expect(out).toContain('"2031-06-03"');
  expect(existsSync(variables.DATA_DIR)).toBe(false); // reading stores nothing
});

test("a server that was killed leaves nothing that keeps commands or the next start from working", async () => {
  const variables = { DATA_DIR: join(folder.path, "killed") };
  const server = runStart(["--port", "0", "--empty"], variables);
  const address = await addressOf(server);
  server.child.kill("SIGKILL");
  await gone(address);
  expect(await runNode(["server/evendry.mjs", "sites", "list", "--json"], variables).ended).toMatchObject({
    exit: 0,
    out: "[]\n",
  });
  const next = runStart(["--port", "0", "--empty"], variables);
  await addressOf(next);
  expect(await stopped(next)).toMatchObject({ exit: 0, err: "" });
});

test("a server whose terminal is closed goes on, and ends when it is told to", async () => {
  const port = await freePort();
  const server = runStart(["--port", String(port), "--empty"], { DATA_DIR: join(folder.path, "unheard") });
  server.child.stdout?.destroy();
  server.child.stderr?.destroy();
  await expect.poll(() => statusOf(`http://127.0.0.1:${port}`), { timeout: 60_000, interval: 200 }).toBe(200);
  expect((await stopped(server)).exit).toBe(0);
});

test("a command whose reader has seen enough ends without a word about it", async () => {
  const lines = Array.from({ length: 20_000 }, (_, at) => `2031-06-02,${at + 1},10,3.1`);
  writeFileSync(join(folder.path, "long.csv"), `Date,Batch,Fresh (kg),Dried (kg)\n${lines.join("\n")}\n`);
  const variables = { DATA_DIR: join(folder.path, "read"), npm_lifecycle_event: "evendry", INIT_CWD: folder.path };
  const command = runNode(["server/evendry.mjs", "read", "--grid", "long.csv"], variables);
  command.child.stdout?.once("data", () => command.child.stdout?.destroy());
  expect(await command.ended).toMatchObject({ exit: 0, err: "" });
});

async function freePort(): Promise<number> {
  const holder = createServer().listen(0, "127.0.0.1");
  await once(holder, "listening");
  const at = holder.address();
  holder.close();
  if (at === null || typeof at === "string") throw new Error("a server that listens has a port");
  return at.port;
}

function statusOf(address: string): Promise<number | null> {
  return fetch(address).then(
    ({ status }) => status,
    () => null,
  );
}

/** Waits until nothing answers: the server notices that whoever started it is gone, and stops by itself. */
async function gone(address: string): Promise<void> {
  const until = performance.now() + 15_000;
  while (performance.now() < until) {
    const answers = await fetch(address).then(
      () => true,
      () => false,
    );
    if (!answers) return;
    await new Promise((later) => setTimeout(later, 100));
  }
  throw new Error("the server went on without the process that started it");
}

const urls = inject("postgres");

test.skipIf(urls === null)("on PostgreSQL the same start serves, and commands need not go through it", async () => {
  const variables = {
    DATA_DIR: join(folder.path, "unused"),
    DATABASE_URL: urls!.loginUrl,
    DATABASE_OWNER_URL: urls!.ownerUrl,
  };
  const server = runStart(["--port", "0"], variables);
  const address = await addressOf(server);
  expect((await fetch(address)).status).toBe(200);
  expect(server.said.out).not.toContain("sign-ins"); // a demo never gets into a programme's database
  const sites = await runNode(["server/evendry.mjs", "sites", "list", "--json"], variables).ended;
  expect(sites).toEqual({ exit: 0, out: "[]\n", err: "" });
  expect(await stopped(server)).toMatchObject({ exit: 0, err: "" });
  expect(existsSync(variables.DATA_DIR)).toBe(false);
});
