import { createHash } from "node:crypto";
import type { TableSaid } from "#server/terms/tableSaid";

/**
 * JSON in one form only, so that the same record has the same hash everywhere: keys in the order of their UTF-16 code
 * units, numbers and texts as JavaScript writes them, no spaces. Members without a value are left out.
 * Source: rfc-8785.
 */
export function canonical(value: unknown): string {
  if (isInOrder(value)) return JSON.stringify(value);
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map((one) => canonical(one ?? null)).join(",")}]`;
  return objectOf(value, undefined);
}

/** The keys stand in order all the way down, so that JavaScript's own way of writing is the one form. */
function isInOrder(value: unknown): boolean {
  if (value === null || typeof value !== "object") return true;
  if (Array.isArray(value)) return value.every(isInOrder);
  const members = value as Readonly<Record<string, unknown>>;
  let before = "";
  for (const key in members) {
    if (key < before || !isInOrder(members[key])) return false;
    before = key;
  }
  return true;
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
  return digestOfLines(changes, (rows) => rows.map((row) => `${objectOf(row, null)}\n`));
}

/** The same hash over the same rows, given column by column. */
export function digestOfColumns(changes: Readonly<Record<string, TableSaid>>): string {
  return digestOfLines(changes, linesOf);
}

function digestOfLines<T>(changes: Readonly<Record<string, T>>, linesOf: (rows: T) => string[]): string {
  const hash = createHash("sha256");
  for (const table of Object.keys(changes).sort()) {
    const rows = changes[table];
    if (rows !== undefined) hash.update(`${table}\n${linesOf(rows).sort().join("")}`);
  }
  return hash.digest("hex");
}

/** A line of what each row says: its columns that are not null, so that a column added later changes no earlier digest. */
function linesOf({ rows, columns }: TableSaid): string[] {
  const parts: { before: string; readonly each: readonly (string | null)[] | null }[] = [];
  for (const column of [...columns].sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const before = `${JSON.stringify(column.name)}:`;
    const last = parts.at(-1);
    if (column.each !== null) parts.push({ before, each: column.each });
    else if (column.all === null) continue;
    else if (last?.each === null) last.before += `,${before}${column.all}`;
    else parts.push({ before: `${before}${column.all}`, each: null });
  }
  // One array for all lines: what takes the most time here is tidying up.
  const line = ["{", ...parts.flatMap(() => ["", "", ""]), "}\n"];
  return Array.from({ length: rows }, (_, row) => {
    let at = 1;
    let comma = "";
    for (const { before, each } of parts) {
      const text = each === null ? "" : (each[row] ?? null);
      line[at++] = text === null ? "" : comma;
      line[at++] = text === null ? "" : before;
      line[at++] = text ?? "";
      if (text !== null) comma = ",";
    }
    return line.join("");
  });
}

/** What stands for a sealed value elsewhere: it says nothing about the value once salt and value are erased. */
export function commitment(salt: string, value: string): string {
  return sha256(Buffer.from(salt, "hex"), value);
}
