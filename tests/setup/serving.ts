import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { findBrowser } from "./findBrowser.mjs";
import { addressOf, freshFolder, runStart, stopped } from "./program";

export interface SignedIn {
  readonly role: string;
  readonly name: string;
  readonly password: string;
}

declare module "vitest" {
  interface ProvidedContext {
    /** where the program serves its demo for the browser tests */
    address: string;
    signIns: readonly SignedIn[];
    browser: string;
  }
}

/** Starts the real program with a demo of its own in a fresh folder, once for all browser tests. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const browser = await findBrowser();
  if (browser === null) throw new Error("No Chromium, Chrome or Edge was found. Install one or set BROWSER_PATH.");
  const folder = freshFolder();
  const running = runStart(["--port", "0"], { DATA_DIR: folder.path });
  project.provide("browser", browser);
  project.provide("address", await addressOf(running));
  project.provide("signIns", readSignIns(join(folder.path, "sign-ins.txt")));
  return async () => {
    const { exit, err } = await stopped(running);
    folder.remove();
    if (exit !== 0 || err !== "") throw new Error(`The server under test ended with ${exit} and complained:\n${err}`);
  };
}

function readSignIns(path: string): SignedIn[] {
  if (!existsSync(path)) return [];
  const lines = readFileSync(path, "utf8").trim().split("\n");
  return lines.map((line) => {
    const [role = "", name = "", password = ""] = line.split(/ {2,}/);
    return { role, name, password };
  });
}
