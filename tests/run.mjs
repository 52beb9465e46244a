// `npm test`: everything, from form to browser. Ends with a line that counts the tests; any failure or warning fails it.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { buildPages, installPackages, secondsSince } from "../server/front/installation.mjs";
import { checkCode, runTool } from "./check.mjs";

const began = performance.now();
const strict = process.env.CI === "true";
const folder = mkdtempSync(join(tmpdir(), "evendry-run-"));
const wrong = [];
const total = { passed: 0, failed: 0, skipped: 0 };

const hindrance = installPackages({ withTools: true, say: console.log });
if (hindrance !== null) wrong.push(hindrance);
else {
  wrong.push(...checkCode());
  console.log("\nPages");
  const unbuilt = buildPages({ say: sayOfBuild });
  if (unbuilt !== null) wrong.push(unbuilt);
  runTests("rooms and stores", ["rooms", "stores"]);
  if (unbuilt === null) {
    runTests("start", ["start"]);
    await runBrowserTests();
  }
}
rmSync(folder, { recursive: true, force: true });

if (total.passed === 0) wrong.push("no test passed");
if (wrong.length > 0) console.error(`\nNot as it should be: ${wrong.join("; ")}.`);
console.log(`\nTook ${secondsSince(began)}.`);
console.log(`${total.passed} passed, ${total.failed} failed, ${total.skipped} skipped`);
process.exit(wrong.length > 0 || total.failed > 0 ? 1 : 0);

/** @param {string} line */
function sayOfBuild(line) {
  console.log(line);
  if (line.includes("⚠")) wrong.push("the build warns");
}

/**
 * @param {string} what
 * @param {readonly string[]} projects
 */
function runTests(what, projects) {
  console.log(`\nTests: ${what}`);
  const counted = join(folder, `${projects.join("-")}.json`);
  const chosen = projects.flatMap((name) => ["--project", name]);
  const reports = ["--reporter=default", "--reporter=json", `--outputFile.json=${counted}`];
  if (!runTool("vitest/vitest.mjs", ["run", ...chosen, ...reports])) wrong.push(`tests of ${what}`);
  try {
    const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(readFileSync(counted, "utf8"));
    total.passed += numPassedTests;
    total.failed += numFailedTests;
    total.skipped += numPendingTests + numTodoTests;
  } catch {
    wrong.push(`tests of ${what} left no count`);
  }
}

async function runBrowserTests() {
  const { findBrowser } = await import("./setup/findBrowser.mjs");
  if ((await findBrowser()) !== null) {
    runTests("browser", ["browser"]);
    return;
  }
  console.log("\nThe browser tests are left out: no Chromium, Chrome or Edge was found.");
  console.log("Install one (Debian: apt-get install chromium) or name it in BROWSER_PATH.");
  if (strict) wrong.push("no browser, and here the browser tests must run");
}
