// Only what Node brings along: this runs before anything is installed.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, relative, resolve } from "node:path";

/** The folder that holds package.json. */
export const root = resolve(import.meta.dirname, "..", "..");

/** What the pages are built from. */
const SOURCES = ["app", "server", "db", "next.config.mjs", "tsconfig.json", "package.json", "package-lock.json"];
const builtFrom = join(root, ".next/built-from");

/**
 * Installs the packages of the lock file where one of them is not there yet.
 *
 * @param {{ withTools: boolean, say: (line: string) => void }} how tools are what only tests and checks need
 * @returns {string | null} a sentence when it could not be done
 */
export function installPackages({ withTools, say }) {
  if (isInstalled(withTools)) return null;
  if (!isWritable(root)) return `Packages must be installed in ${root}, and that folder cannot be written.`;
  const began = performance.now();
  say("Installing packages (first start, or after an update) ...");
  const done = npm(["ci", "--no-audit", "--no-fund", withTools ? "--include=dev" : "--omit=dev"]);
  if (done.status === 0) {
    say(`  packages installed (${secondsSince(began)})`);
    return null;
  }
  say(`${done.stdout ?? ""}${done.stderr ?? ""}`);
  return "npm could not install the packages (its own words are above). Check the network, then try again.";
}

/**
 * Builds the pages where their sources have changed.
 *
 * @param {{ say: (line: string) => void }} how
 * @returns {string | null} a sentence when it could not be done
 */
export function buildPages({ say }) {
  if (existsSync(builtFrom) && readFileSync(builtFrom, "utf8") === hashOfSources()) return null;
  if (!isWritable(root)) return `Pages must be built in ${root}, and that folder cannot be written.`;
  const began = performance.now();
  say("Building pages (first start, or after a change) ...");
  // In an automatic run the builder warns when this folder, kept from an earlier build, is not there.
  mkdirSync(join(root, ".next/cache"), { recursive: true });
  const env = { ...process.env, NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1" };
  const done = spawnSync(process.execPath, [join(root, "node_modules/next/dist/bin/next"), "build"], {
    cwd: root,
    env,
    encoding: "utf8",
  });
  const told = `${done.stdout}${done.stderr}`;
  if (done.status !== 0) {
    say(told);
    return "The pages could not be built (the reason is above); nothing was started.";
  }
  for (const line of told.split("\n")) if (line.includes("⚠")) say(line);
  writeFileSync(builtFrom, hashOfSources()); // again, because the build may complete tsconfig.json
  say(`  pages built (${secondsSince(began)})`);
  return null;
}

/** @param {number} began */
export function secondsSince(began) {
  return `${((performance.now() - began) / 1000).toFixed(1)} s`;
}

/**
 * Whether node_modules is what the lock file asks for, by the list that npm leaves there when it is done: every package
 * that we ask for ourselves, and no other version of anything. (The lock file also names what other systems need.)
 *
 * @param {boolean} withTools
 */
function isInstalled(withTools) {
  const list = join(root, "node_modules/.package-lock.json");
  if (!existsSync(list)) return false;
  const wanted = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")).packages;
  const there = JSON.parse(readFileSync(list, "utf8")).packages;
  const { dependencies, devDependencies } = wanted[""];
  const asked = Object.keys({ ...dependencies, ...(withTools ? devDependencies : {}) });
  return (
    asked.every((name) => there[`node_modules/${name}`] !== undefined) &&
    Object.keys(there).every((path) => wanted[path] === undefined || wanted[path].version === there[path].version)
  );
}

/** @param {readonly string[]} words */
function npm(words) {
  const beside = dirname(process.execPath);
  // A .cmd cannot be started without a shell, so npm's own script is run by this very Node where it can be found.
  const script = [
    process.env.npm_execpath ?? "",
    join(beside, "node_modules/npm/bin/npm-cli.js"),
    join(beside, "../lib/node_modules/npm/bin/npm-cli.js"),
  ].find((path) => path.endsWith("npm-cli.js") && existsSync(path));
  if (script !== undefined) return spawnSync(process.execPath, [script, ...words], { cwd: root, encoding: "utf8" });
  return spawnSync(`npm ${words.join(" ")}`, { cwd: root, encoding: "utf8", shell: true });
}

/** @param {string} path */
function isWritable(path) {
  try {
    accessSync(path, constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

/** One hash over all sources, the same on every system. */
function hashOfSources() {
  const hash = createHash("sha256");
  for (const path of SOURCES.map((name) => join(root, name)).flatMap(filesUnder)) {
    hash.update(relative(root, path).replaceAll("\\", "/")).update("\0");
    hash.update(readFileSync(path, "utf8").replaceAll("\r\n", "\n")).update("\0");
  }
  return hash.digest("hex");
}

/**
 * @param {string} path
 * @returns {string[]}
 */
function filesUnder(path) {
  if (!existsSync(path)) return [];
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path)
    .sort()
    .flatMap((name) => filesUnder(join(path, name)));
}
