import { createHash } from "node:crypto";
import { canonicalize } from "json-canonicalize";

/** JSON in one form only, so that the same record has the same hash everywhere. Source: rfc-8785. */
export function canonical(value: unknown): string {
  return canonicalize(value);
}

/** SHA-256 in lower-case hexadecimal. */
export function sha256(...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(part);
  return hash.digest("hex");
}

/** One hash over what a command added, table by table; rows in the order of their own canonical text. */
export function digestOf(changes: Readonly<Record<string, readonly object[]>>): string {
  const tables = Object.keys(changes).sort();
  return sha256(
    ...tables.flatMap((table) => [`${table}\n`, ...(changes[table] ?? []).map((row) => `${said(row)}\n`).sort()]),
  );
}

/** What a row says: its columns that are not null, so that a column added later changes no earlier digest. */
function said(row: object): string {
  return canonical(Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null)));
}

/** What stands for a sealed value elsewhere: it says nothing about the value once salt and value are erased. */
export function commitment(salt: string, value: string): string {
  return sha256(Buffer.from(salt, "hex"), value);
}
