import { createServer, type Server } from "node:http";
import next from "next";
import { closeTheStore, theStore } from "#db/client";
import { CannotStart } from "./cannotStart";
import { addressesOf } from "./front/addresses";
import { frontServer } from "./front/frontServer";
import { type Options, readOptions } from "./front/options.mjs";
import { prepare } from "./front/prepare";
import { tellSignIns } from "./front/signIns";
import { takeCommands } from "./front/socket";
import { goOnUnheard } from "./front/unheard.mjs";
import { watchAlong } from "./front/watchAlong";
import { readSettings } from "./settings";

/** How long answers under way are waited for when we are told to stop. */
const PATIENCE = 8000;

/** What to do, in turn, when we are told to stop. */
const closing: (() => unknown)[] = [];
let stopping = false;

goOnUnheard();
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, stop);
process.on("message", stop);
process.on("disconnect", stop); // whoever started us is gone

try {
  const options = readOptions(process.argv.slice(2));
  if (typeof options === "string") throw new CannotStart(options);
  await serve(options);
} catch (trouble) {
  console.error(trouble instanceof CannotStart ? trouble.message : trouble);
  process.exit(1);
}

async function serve(options: Options): Promise<void> {
  const settings = readSettings();
  const began = performance.now();
  const { signIns, goOn } = await prepare(console.log);
  closing.push(closeTheStore);
  console.log(`  database ready (${((performance.now() - began) / 1000).toFixed(1)} s)`);

  // While developing, the page server also takes the browser's open line, from our server; else it gets one that never listens.
  const pages = next({ dev: options.dev, dir: process.cwd(), ...(options.dev ? {} : { httpServer: createServer() }) });
  await pages.prepare();
  closing.unshift(() => pages.close());
  const server = frontServer(settings, options.dev, pages.getRequestHandler());
  await listening(server, options);
  closing.unshift(() => closed(server));
  if (settings.embedded) {
    const commands = await takeCommands(settings.dataDir);
    closing.unshift(() => commands.close());
  }
  if (settings.watchAlong) closing.unshift(watchAlong(await theStore(), console.error));
  if (!stopping)
    console.log(welcome(server, options.host, tellSignIns(signIns, settings.dataDir, process.stdout.isTTY)));
  if (goOn !== null && !stopping) goOn().catch((trouble: unknown) => !stopping && console.error(trouble));
}

function welcome(server: Server, host: string, signIns: readonly string[]): string {
  const bound = server.address();
  if (bound === null || typeof bound === "string") throw new Error("a server that listens has a port");
  const [here, ...network] = addressesOf(host, bound.port);
  const lines = [
    `  Open  ${here}`,
    ...network.map((address) => `        ${address}  (from this network)`),
    "  Stop  Ctrl+C",
  ];
  return ["", ...lines, "", ...signIns].join("\n");
}

function listening(server: Server, { port, host }: Options): Promise<void> {
  return new Promise((ready, failed) => {
    server.once("error", (trouble) =>
      failed(new CannotStart(`Port ${port} cannot be listened on (${trouble.message}).`)),
    );
    server.listen({ port, host }, ready);
  });
}

/** Takes no new requests, lets those under way end, and after a while ends them. */
function closed(server: Server): Promise<void> {
  const impatient = setTimeout(() => server.closeAllConnections(), PATIENCE);
  return new Promise((done) => {
    server.close(() => {
      clearTimeout(impatient);
      done();
    });
    server.closeIdleConnections();
  });
}

async function stop(): Promise<void> {
  if (stopping) return;
  stopping = true;
  for (const close of closing) await close();
  process.exit(0);
}
