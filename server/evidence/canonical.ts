import { createHash } from "node:crypto";

/**
 * JSON in one form only, so that the same record has the same hash everywhere: keys in the order of their UTF-16 code
 * units, numbers and texts as JavaScript writes them, no spaces. Members without a value are left out.
 * Source: rfc-8785.
 */
export function canonical(value: unknown): string {
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map((one) => canonical(one ?? null)).join(",")}]`;
  return objectOf(Object.entries(value).filter(([, member]) => member !== undefined));
}

function objectOf(members: [string, unknown][]): string {
  members.sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${members.map(([key, member]) => `${JSON.stringify(key)}:${canonical(member)}`).join(",")}}`;
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
  return objectOf(Object.entries(row).filter(([, value]) => value !== null));
}

/** What stands for a sealed value elsewhere: it says nothing about the value once salt and value are erased. */
export function commitment(salt: string, value: string): string {
  return sha256(Buffer.from(salt, "hex"), value);
}
