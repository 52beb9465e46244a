import { closeTheStore } from "#db/client";
import { CannotStart } from "../cannotStart";
import { runCommand } from "../cli";
import { goOnUnheard } from "./unheard.mjs";

goOnUnheard();

const write = (stream: NodeJS.WriteStream) => (text: string) => void stream.write(text);

/** Runs one command in this process, for when no server holds the database. First comes the folder where the person stands. */
const [cwd = ".", ...argv] = process.argv.slice(2);
try {
  process.exitCode = await runCommand(argv, {
    cwd,
    out: write(process.stdout),
    err: write(process.stderr),
  });
} catch (trouble) {
  if (!(trouble instanceof CannotStart)) throw trouble;
  console.error(trouble.message);
  process.exitCode = 1;
} finally {
  await closeTheStore();
}
