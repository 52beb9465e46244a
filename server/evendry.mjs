// The entry of `npm run -s evendry -- COMMAND`. It installs nothing.
import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { connect } from "node:net";
import { join, resolve } from "node:path";
import { createInterface } from "node:readline";
import { root } from "./front/installation.mjs";
import { socketPath } from "./front/socketPath.mjs";
import { goOnUnheard } from "./front/unheard.mjs";

goOnUnheard();

const argv = process.argv.slice(2);
const dataDir = resolve(root, process.env.DATA_DIR || "data");
// npm runs us in the project's folder and tells where the person stood.
const cwd = process.env.npm_lifecycle_event === "evendry" ? (process.env.INIT_CWD ?? process.cwd()) : process.cwd();

if (!existsSync(join(root, "node_modules/tsx/package.json"))) {
  console.error("Nothing is installed yet. Run npm start or npm ci first.");
  process.exit(1);
}
if (process.env.DATABASE_URL || !existsSync(socketPath(dataDir))) runHere();
else askServer();

/** Lets the server that holds the database run the command; without one, runs it here. */
function askServer() {
  let exit = null;
  const socket = connect(socketPath(dataDir), () => socket.write(`${JSON.stringify({ argv, cwd })}\n`));
  socket.once("error", () => (exit === null && socket.bytesWritten === 0 ? runHere() : brokenOff()));
  createInterface({ input: socket }).on("line", (line) => {
    const part = JSON.parse(line);
    if (part.out !== undefined) process.stdout.write(part.out);
    if (part.err !== undefined) process.stderr.write(part.err);
    if (part.exit !== undefined) process.exitCode = exit = part.exit;
  });
  socket.once("close", (hadError) => {
    if (!hadError && exit === null) brokenOff();
  });
}

function brokenOff() {
  console.error(
    "The server stopped before it answered. Start it again and repeat the command: nothing is stored twice.",
  );
  process.exitCode = 1;
}

function runHere() {
  const env = { ...process.env, DATA_DIR: dataDir, NODE_ENV: "production" };
  // A command is alone and in no hurry: memory is tidied early, so that a back-file of a million rows needs little of it.
  const thrifty = ["--max-semi-space-size=4", "--heap-growing-percent=25"];
  const words = [...thrifty, "--import", "tsx", "server/front/command.ts", cwd, ...argv];
  const child = spawn(process.execPath, words, { cwd: root, env, stdio: "inherit" });
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, () => child.kill(signal));
  child.on("exit", (code) => {
    process.exitCode = code ?? 1;
  });
}
