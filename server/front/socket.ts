import { chmodSync, rmSync } from "node:fs";
import { createServer, type Server, type Socket } from "node:net";
import { createInterface } from "node:readline";
import { z } from "zod";
import { runCommand } from "../cli";
import { socketPath } from "./socketPath.mjs";

const asked = z.strictObject({ argv: z.array(z.string()), cwd: z.string() });

/** Takes commands from this machine's `npm run evendry` while the embedded database is ours; only our own user may ask. */
export async function takeCommands(dataDir: string): Promise<Server> {
  const path = socketPath(dataDir);
  // The folder is ours by its lock, so a socket found here was left by a process that is gone.
  if (process.platform !== "win32") rmSync(path, { force: true });
  const server = createServer((socket) => {
    socket.on("error", () => socket.destroy()); // whoever asked has gone; the command itself runs to its end
    createInterface({ input: socket }).once("line", (line) => void answer(socket, line));
  });
  const before = process.umask(0o177);
  try {
    await new Promise<void>((listening, failed) => server.once("error", failed).listen(path, listening));
  } finally {
    process.umask(before);
  }
  if (process.platform !== "win32") chmodSync(path, 0o600);
  return server;
}

/** One line in, `{argv, cwd}`; lines out: `{out}` and `{err}` as they come, `{exit}` last. */
async function answer(socket: Socket, line: string): Promise<void> {
  const tell = (part: { out: string } | { err: string } | { exit: number }) => {
    if (socket.writable) socket.write(`${JSON.stringify(part)}\n`);
  };
  try {
    const { argv, cwd } = asked.parse(JSON.parse(line));
    tell({ exit: await runCommand(argv, { cwd, out: (out) => tell({ out }), err: (err) => tell({ err }) }) });
  } catch (trouble) {
    console.error(trouble);
    tell({ err: `The command broke off: ${trouble instanceof Error ? trouble.message : String(trouble)}\n` });
    tell({ exit: 1 });
  }
  socket.end();
}
