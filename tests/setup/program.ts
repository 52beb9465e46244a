import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

export const root = resolve(import.meta.dirname, "../..");

/** How one of our programs ended. */
export interface Ended {
  readonly exit: number | null;
  readonly out: string;
  readonly err: string;
}

export interface Running {
  readonly child: ChildProcess;
  /** what was written so far */
  readonly said: { out: string; err: string };
  readonly ended: Promise<Ended>;
}

/** Variables that must not leak from the person who runs the tests into the program under test. */
const OURS = [
  "DATA_DIR",
  "DATABASE_URL",
  "DATABASE_OWNER_URL",
  "EMPTY",
  "TRUSTED_PROXY",
  "PORT",
  "HOST",
  "NODE_ENV",
  "VITEST",
  "INIT_CWD",
];

/** Runs Node with some words. */
export function runNode(
  words: readonly string[],
  variables: Record<string, string> = {},
  command: readonly string[] = [],
): Running {
  const clean = Object.entries(process.env).filter(([name]) => !OURS.includes(name) && !name.startsWith("npm_"));
  const env = { ...Object.fromEntries(clean), ...variables, NODE_ENV: "production" as const };
  const [program = process.execPath, ...before] = [...command, process.execPath];
  const child = spawn(program, [...before, ...words], { cwd: root, env, stdio: ["ignore", "pipe", "pipe"] });
  const cutShort = () => child.kill("SIGKILL");
  process.once("exit", cutShort);
  const said = { out: "", err: "" };
  child.stdout?.on("data", (piece) => (said.out += piece));
  child.stderr?.on("data", (piece) => (said.err += piece));
  const ended = new Promise<Ended>((done) => child.on("close", (exit) => done({ exit, ...said })));
  void ended.then(() => process.off("exit", cutShort));
  return { child, said, ended };
}

/** Runs `npm start` as npm does. */
export function runStart(
  words: readonly string[],
  variables: Record<string, string> = {},
  command: readonly string[] = [],
): Running {
  return runNode(["server/start.mjs", ...words], variables, command);
}

/** Waits until a started server prints its address; throws with what it said when it ends before. */
export async function addressOf(running: Running): Promise<string> {
  const found = () => /Open {2}(http:\S+)/.exec(running.said.out)?.[1];
  let over = false;
  void running.ended.then(() => (over = true));
  while (found() === undefined) {
    if (over) throw new Error(`The server ended before it served:\n${running.said.out}${running.said.err}`);
    await new Promise((later) => setTimeout(later, 50));
  }
  return found()!;
}

export async function stopped(running: Running): Promise<Ended> {
  running.child.kill("SIGTERM");
  return running.ended;
}

export function freshFolder(): { path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), "evendry-test-"));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}
