// What a program can say about the code without running it: form, lint and types. `npm run check` stops here.
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { installPackages, root } from "../server/front/installation.mjs";

/**
 * Runs one of our tools with this Node and shows what it says.
 *
 * @param {string} script inside node_modules
 * @param {readonly string[]} words
 * @returns {boolean} whether it was content
 */
export function runTool(script, words) {
  const env = { ...process.env, NEXT_TELEMETRY_DISABLED: "1" };
  return (
    spawnSync(process.execPath, [join(root, "node_modules", script), ...words], { cwd: root, stdio: "inherit", env })
      .status === 0
  );
}

/**
 * Form and lint, then the types of everything.
 *
 * @returns {string[]} what is not as it should be
 */
export function checkCode() {
  const wrong = [];
  console.log("\nForm and lint");
  if (!runTool("@biomejs/biome/bin/biome", ["ci", "--error-on-warnings"])) wrong.push("form or lint");
  console.log("\nTypes");
  const typed = runTool("next/dist/bin/next", ["typegen"]) && runTool("typescript/bin/tsc", ["--noEmit"]);
  if (!typed) wrong.push("types");
  return wrong;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const hindrance = installPackages({ withTools: true, say: console.log });
  const wrong = hindrance === null ? checkCode() : [hindrance];
  if (wrong.length > 0) console.error(`\nNot as it should be: ${wrong.join(", ")}.`);
  process.exit(wrong.length === 0 ? 0 : 1);
}
