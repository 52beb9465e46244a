import { randomBytes } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import postgres from "postgres";
import { inject } from "vitest";
import { openStore } from "#db/client";
import type { Store } from "#db/store";
import type { Context } from "#server/api/base";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { OPERATOR, type Person } from "#server/terms/person";
import type { Bounds } from "#server/terms/row";

export const BOUNDS: Bounds = {
  bytes: 10 * 2 ** 20,
  unpackedBytes: 64 * 2 ** 20,
  rows: 20_000,
  columns: 512,
  cellCharacters: 32_767,
  sheets: 40,
};

/** The databases that this machine can test on: the embedded one always, PostgreSQL where there is one. */
export const KINDS: readonly Store["kind"][] = inject("postgres") === null ? ["embedded"] : ["embedded", "postgres"];

export interface Opened {
  readonly store: Store;
  /** of the embedded database; its inbox and journal lie there */
  readonly dataDir: string;
  /** PostgreSQL as someone who may do everything; null on the embedded database */
  readonly superUrl: string | null;
  /** the login role's address; null on the embedded database */
  readonly databaseUrl: string | null;
  readonly close: () => Promise<void>;
}

/** A new, empty database of a kind with its ledger begun, unless `bare`. */
export async function freshStore(
  kind: Store["kind"],
  { bare = false, dataDir = mkdtempSync(join(tmpdir(), "evendry-store-")) } = {},
): Promise<Opened> {
  const urls =
    kind === "postgres" ? await newDatabase() : { databaseUrl: null, databaseOwnerUrl: null, superUrl: null };
  const store = await openStore({ dataDir, ...urls });
  if (!bare) await begin(store, () => new Date("2031-01-01T06:00:00Z"));
  return {
    store,
    dataDir,
    superUrl: urls.superUrl,
    databaseUrl: urls.databaseUrl,
    close: async () => {
      await store.close();
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}

async function newDatabase(): Promise<{ databaseUrl: string; databaseOwnerUrl: string; superUrl: string }> {
  const urls = inject("postgres");
  if (urls === null) throw new Error("there is no PostgreSQL to make a database in");
  const name = `evendry_${randomBytes(6).toString("hex")}`;
  const owner = postgres(urls.ownerUrl, { max: 1, onnotice: () => {} });
  await owner.unsafe(`create database ${name}`);
  await owner.end();
  const at = (url: string) => url.replace(/\/[^/]*$/, `/${name}`);
  return { databaseUrl: at(urls.loginUrl), databaseOwnerUrl: at(urls.ownerUrl), superUrl: at(urls.superUrl) };
}

/** The procedures as a person calls them, at a time of the test's own. */
export function apiOf(
  store: Store,
  at: string | (() => Date),
  person: Person | null = OPERATOR,
  rule?: Context["rule"],
) {
  const clock = typeof at === "string" ? () => new Date(at) : at;
  return callerOf({ store, person, clock, bounds: BOUNDS, ...(rule === undefined ? {} : { rule }) });
}

export const bytes = (text: string) => new TextEncoder().encode(text);
