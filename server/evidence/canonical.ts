import { createHash } from "node:crypto";

/**
 * JSON in one form only, so that the same record has the same hash everywhere: keys in the order of their UTF-16 code
 * units, numbers and texts as JavaScript writes them, no spaces. Members without a value are left out.
 * Source: rfc-8785.
 */
export function canonical(value: unknown): string {
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map((one) => canonical(one ?? null)).join(",")}]`;
  return objectOf(value, undefined);
}

/** The members in the order of their keys; left out are those without a value and those with the value `omitted`. */
function objectOf(value: object, omitted: null | undefined): string {
  const members = value as Readonly<Record<string, unknown>>;
  let text = "";
  for (const key of Object.keys(members).sort()) {
    const member = members[key];
    if (member === undefined || member === omitted) continue;
    text += `${text === "" ? "" : ","}${JSON.stringify(key)}:${canonical(member)}`;
  }
  return `{${text}}`;
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
  return sha256(...tables.map((table) => [`${table}\n`, ...(changes[table] ?? []).map(said).sort()].join("")));
}

/** A line of what a row says: its columns that are not null, so that a column added later changes no earlier digest. */
function said(row: object): string {
  return `${objectOf(row, null)}\n`;
}

/** What stands for a sealed value elsewhere: it says nothing about the value once salt and value are erased. */
export function commitment(salt: string, value: string): string {
  return sha256(Buffer.from(salt, "hex"), value);
}
