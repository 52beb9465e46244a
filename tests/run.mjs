// `npm test`: everything, from form to browser. Ends with a line that counts the tests; any failure or warning fails it.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { buildPages, installPackages, secondsSince } from "../server/front/installation.mjs";
import { checkCode, runTool } from "./check.mjs";

const began = performance.now();
const strict = process.env.CI === "true";
const folder = mkdtempSync(join(tmpdir(), "evendry-run-"));
const wrong = [];
/** What failed, told once more at the end: a log of the run may keep its end only. */
const failed = [];
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
for (const failure of failed) console.error(`\nFailed: ${failure}`);
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
    const report = JSON.parse(readFileSync(counted, "utf8"));
    const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = report;
    total.passed += numPassedTests;
    total.failed += numFailedTests;
    total.skipped += numPendingTests + numTodoTests;
    failed.push(...failuresTold(report));
  } catch {
    wrong.push(`tests of ${what} left no count`);
  }
}

/**
 * A few lines for each test that failed and each file that broke.
 *
 * @param {{ testResults: readonly { name: string, status: string, message: string, assertionResults: readonly { fullName: string, status: string, failureMessages: readonly string[] }[] }[] }} report
 */
function failuresTold({ testResults }) {
  return testResults.flatMap(({ name, status, message, assertionResults }) => {
    const file = relative(process.cwd(), name);
    const broken = assertionResults.filter((test) => test.status === "failed");
    if (broken.length === 0) return status === "failed" ? [`${file}\n${beginning(message)}`] : [];
    return broken.map((test) => `${file}: ${test.fullName.trim()}\n${beginning(test.failureMessages.join("\n"))}`);
  });
}

/** @param {string} text */
function beginning(text) {
  return text
    .split("\n")
    .slice(0, 12)
    .map((line) => `    ${line.slice(0, 300)}`)
    .join("\n");
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
