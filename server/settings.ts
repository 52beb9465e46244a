import { resolve } from "node:path";
import { z } from "zod";
import { CannotStart } from "./cannotStart";
import type { Bounds } from "./terms/row";

/** What the installation decides. Everything else is the same everywhere. */
export interface Settings {
  /** absolute; holds the embedded database, the inbox, the journal and the command socket */
  readonly dataDir: string;
  /** PostgreSQL through a login role that cannot bypass row-level security; null means the embedded database */
  readonly databaseUrl: string | null;
  /** PostgreSQL through the role that owns the tables, for migrations only; the other address serves where it is null */
  readonly databaseOwnerUrl: string | null;
  readonly embedded: boolean;
  readonly bounds: Bounds;
  /** no demo in a new embedded data folder */
  readonly empty: boolean;
  /** a reverse proxy of ours stands in front, so its forwarding headers are believed */
  readonly trustedProxy: boolean;
  /** signals are recorded while the server runs; else once somebody asks for them */
  readonly watchAlong: boolean;
  readonly production: boolean;
}

const MIB = 2 ** 20;

const count = (otherwise: number, most: number) =>
  z.coerce.number(`must be a whole number from 1 to ${most}`).int().min(1).max(most).default(otherwise);

const yesOrNo = z.enum(["yes", "no"], "must be yes or no").default("no");

const postgresAddress = z
  .string()
  .regex(/^postgres(ql)?:\/\//, "must begin with postgres:// or postgresql://")
  .optional();

const environment = z.object({
  DATA_DIR: z.string().default("data"),
  DATABASE_URL: postgresAddress,
  DATABASE_OWNER_URL: postgresAddress,
  MAX_FILE_MIB: count(10, 1024),
  MAX_UNPACKED_MIB: count(64, 4096),
  MAX_ROWS: count(20_000, 1_000_000),
  MAX_COLUMNS: count(512, 16_384),
  MAX_CELL_CHARACTERS: count(32_767, 1_000_000),
  MAX_SHEETS: count(40, 1000),
  EMPTY: yesOrNo,
  TRUSTED_PROXY: yesOrNo,
  WATCH_ALONG: z.enum(["yes", "no"], "must be yes or no").default("yes"),
  NODE_ENV: z.string().default("development"),
});

/** Reads the environment. A wrong value is refused with a sentence that names the variable. */
export function readSettings(variables: Readonly<Record<string, string | undefined>> = process.env): Settings {
  const given = Object.fromEntries(
    Object.entries(variables).filter(([, value]) => value !== undefined && value !== ""),
  );
  const read = environment.safeParse(given);
  if (!read.success) {
    const [first] = read.error.issues;
    throw new CannotStart(`The setting ${String(first?.path[0])} ${first?.message ?? "cannot be read"}.`);
  }
  const said = read.data;
  return {
    dataDir: resolve(/*turbopackIgnore: true*/ process.cwd(), said.DATA_DIR),
    databaseUrl: said.DATABASE_URL ?? null,
    databaseOwnerUrl: said.DATABASE_OWNER_URL ?? null,
    embedded: said.DATABASE_URL === undefined,
    bounds: {
      bytes: said.MAX_FILE_MIB * MIB,
      unpackedBytes: said.MAX_UNPACKED_MIB * MIB,
      rows: said.MAX_ROWS,
      columns: said.MAX_COLUMNS,
      cellCharacters: said.MAX_CELL_CHARACTERS,
      sheets: said.MAX_SHEETS,
    },
    empty: said.EMPTY === "yes",
    trustedProxy: said.TRUSTED_PROXY === "yes",
    watchAlong: said.WATCH_ALONG === "yes",
    production: said.NODE_ENV === "production",
  };
}
