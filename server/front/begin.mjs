import { spawn } from "node:child_process";
import { createServer } from "node:net";
import { resolve } from "node:path";
import { buildPages, installPackages, root } from "./installation.mjs";
import { readOptions } from "./options.mjs";
import { goOnUnheard } from "./unheard.mjs";

goOnUnheard();

const options = readOptions(process.argv.slice(2));
if (typeof options === "string") leave(options);

const busy = await whyBusy(options.port, options.host);
if (busy !== null) leave(busy);

const say = console.log;
const hindrance = installPackages({ withTools: false, say }) ?? (options.dev ? null : buildPages({ say }));
if (hindrance !== null) leave(hindrance);

// Its own process, because only Node's command line teaches Node and its worker threads to read TypeScript.
const server = spawn(process.execPath, ["--import", "tsx", "server/serve.ts", ...process.argv.slice(2)], {
  cwd: root,
  stdio: ["inherit", "inherit", "inherit", "ipc"], // the channel tells the server when this process is gone
  env: {
    ...process.env,
    NODE_ENV: options.dev ? "development" : "production",
    NEXT_TELEMETRY_DISABLED: "1",
    DATA_DIR: resolve(root, process.env.DATA_DIR || "data"),
    ...(options.empty ? { EMPTY: "yes" } : {}),
  },
});
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, () => server.connected && server.send("stop"));
server.on("exit", (code) => process.exit(code ?? 1));

/**
 * @param {string} sentence
 * @returns {never}
 */
function leave(sentence) {
  console.error(sentence);
  process.exit(1);
}

/**
 * Why the address cannot be taken, as a sentence; null when it can.
 *
 * @param {number} port
 * @param {string} host
 * @returns {Promise<string | null>}
 */
async function whyBusy(port, host) {
  const code = await new Promise((told) => {
    const trial = createServer();
    trial.once("error", (trouble) => told("code" in trouble ? trouble.code : trouble.message));
    trial.listen({ port, host, exclusive: true }, () => trial.close(() => told(null)));
  });
  if (code === null) return null;
  if (code === "EACCES") return `This user may not listen on port ${port}. Choose another: npm start -- --port 3000`;
  if (code !== "EADDRINUSE") return `This machine has no address ${host} to listen on (${code}).`;
  const nearby = host === "0.0.0.0" || host === "::" ? "127.0.0.1" : host;
  const address = `http://${nearby.includes(":") ? `[${nearby}]` : nearby}:${port}`;
  const answer = await fetch(`${address}/healthz`, { signal: AbortSignal.timeout(2000) })
    .then((response) => response.text())
    .catch(() => "");
  if (answer.startsWith("evendry")) return `Evendry is already running at ${address}.`;
  return `Port ${port} is used by another program. Stop that one, or choose another: npm start -- --port ${port + 1}`;
}
