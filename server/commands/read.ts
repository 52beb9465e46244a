import { mkdir, readFile, writeFile } from "node:fs/promises";
import { basename, resolve } from "node:path";
import { sha256 } from "#server/evidence/canonical";
import { plainTable } from "#server/intake/grid/plainTable";
import { readBytes } from "#server/jobs/readBytes";
import { readSettings } from "#server/settings";
import type { Bounds, Hints } from "#server/terms/row";
import { apiAs, type Io, WrongCall, WrongData, wordsOf } from "./command";
import { readingAsJson, readingInWords } from "./readingShown";
import { refusalInWords } from "./words";

/** `read FILE…`: what is understood of logs; nothing is stored. */
export async function read(argv: readonly string[], io: Io): Promise<number> {
  const { values, positionals } = wordsOf(argv, {
    month: { type: "string" },
    site: { type: "string" },
    grid: { type: "boolean" },
    "out-dir": { type: "string" },
  });
  if (positionals.length === 0) throw new WrongCall("Say which file to read.");
  if (values.grid) return readGridOnly(positionals, values["out-dir"], io);
  const period = values.month === undefined ? {} : { period: values.month };
  const hints: Hints =
    values.site === undefined
      ? period
      : { ...(await (await apiAs(values.as)).logs.hints({ site: values.site, ...period })) };
  const bounds: Bounds = readSettings().bounds;
  const answers: unknown[] = [];
  let exit = 0;
  for (const path of positionals) {
    const bytes = await bytesOf(io.cwd, path);
    const reading = await readBytes({ bytes, hints, bounds });
    if ("refused" in reading) exit = 1;
    const shown = { file: path, sha256: sha256(bytes), ...readingAsJson(reading) };
    answers.push(shown);
    if (!values.json) io.out(readingInWords(path, reading));
  }
  if (values.json) io.out(`${JSON.stringify(answers)}\n`);
  return exit;
}

/** `read --grid`: only the table that was found, as plain CSV; to `out`, or one file each to a folder. */
async function readGridOnly(paths: readonly string[], folder: string | undefined, io: Io): Promise<number> {
  const bounds: Bounds = { ...readSettings().bounds, rows: Number.MAX_SAFE_INTEGER };
  let exit = 0;
  for (const path of paths) {
    const table = plainTable(await bytesOf(io.cwd, path), basename(path), bounds);
    if ("refused" in table) {
      exit = 1;
      io.err(`${path}: ${refusalInWords(table)}\n`);
    } else if (folder === undefined) io.out(table.csv);
    else {
      await mkdir(resolve(io.cwd, folder), { recursive: true });
      await writeFile(resolve(io.cwd, folder, `${basename(path)}_converted.csv`), table.csv);
    }
  }
  return exit;
}

/** The bytes of a file named on the command line, or a sentence that it is not there. */
export async function bytesOf(cwd: string, path: string): Promise<Uint8Array> {
  return readFile(resolve(cwd, path)).catch(() => {
    throw new WrongData(`The file ${path} cannot be read. Look whether it is there and whether this user may read it.`);
  });
}
