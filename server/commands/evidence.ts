import { createHash } from "node:crypto";
import { createWriteStream } from "node:fs";
import { mkdir } from "node:fs/promises";
import { join, resolve } from "node:path";
import { Readable, Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import { TRPCError } from "@trpc/server";
import { reasonInWords } from "#app/_words/problems";
import { TABLE_NAMES } from "#server/evidence/tables";
import { apiAs, type Io, needed, wordsOf } from "./command";

interface Written {
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** `evidence --site CODE|all --from YYYY-MM --to YYYY-MM [--as-of TIME] --out-dir DIR`: every table as CSV, and one workbook. */
export async function evidence(argv: readonly string[], io: Io): Promise<number> {
  const { values } = wordsOf(argv, {
    site: { type: "string" },
    from: { type: "string" },
    to: { type: "string" },
    "as-of": { type: "string" },
    "out-dir": { type: "string" },
  });
  const site = needed(values.site, "site");
  const from = needed(values.from, "from");
  const folder = resolve(io.cwd, needed(values["out-dir"], "out-dir"));
  const asOf = values["as-of"] === undefined ? {} : { asOf: values["as-of"] };
  const scope = { from, to: values.to ?? from, ...asOf, sentence: reasonInWords };
  const { evidence: door } = await apiAs(values.as);
  const written: Written[] = [];
  const keep = async (name: string, pieces: AsyncIterable<string> | Iterable<Uint8Array>) => {
    await mkdir(folder, { recursive: true });
    written.push(await writeTo(folder, name, pieces));
  };
  for (const table of TABLE_NAMES) {
    const { name, pieces } = await (site === "all"
      ? door.allCsv({ ...scope, table })
      : door.siteCsv({ site, ...scope, table }));
    await keep(name, pieces);
  }
  const book = await (site === "all" ? door.allWorkbook(scope) : door.siteWorkbook({ site, ...scope })).catch(tooMuch);
  if (typeof book === "string") io.err(`${book}\n`);
  else await keep(book.name, [book.bytes]);
  if (values.json) io.out(`${JSON.stringify(written)}\n`);
  else for (const { file, bytes, sha256 } of written) io.out(`${sha256}  ${file} (${bytes} bytes)\n`);
  return 0;
}

/** Writes one file piece by piece, and says what it is. */
async function writeTo(
  folder: string,
  name: string,
  pieces: AsyncIterable<string> | Iterable<Uint8Array>,
): Promise<Written> {
  const hash = createHash("sha256");
  let bytes = 0;
  const watched = new Transform({
    transform(piece: Buffer, _encoding, done) {
      hash.update(piece);
      bytes += piece.length;
      done(null, piece);
    },
  });
  await pipeline(Readable.from(pieces), watched, createWriteStream(join(folder, name)));
  return { file: name, bytes, sha256: hash.digest("hex") };
}

/** The tables are there all the same; only the workbook is not. */
function tooMuch(trouble: unknown): string {
  if (trouble instanceof TRPCError && trouble.code === "BAD_REQUEST") return trouble.message;
  throw trouble;
}
