import { createHash } from "node:crypto";

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
export function objectOf(value: object, omitted: null | undefined): string {
  const members = value as Readonly<Record<string, unknown>>;
  let text = "";
  for (const key of inOrder(Object.keys(members))) {
    const member = members[key];
    if (member === undefined || member === omitted) continue;
    text += `${text === "" ? "" : ","}${JSON.stringify(key)}:${canonical(member)}`;
  }
  return `{${text}}`;
}

/** Objects that follow each other mostly have the same keys. */
let before: { readonly keys: readonly string[]; readonly sorted: readonly string[] } = { keys: [], sorted: [] };

function inOrder(keys: readonly string[]): readonly string[] {
  const areSame = keys.length === before.keys.length && keys.every((key, at) => key === before.keys[at]);
  if (!areSame) before = { keys, sorted: [...keys].sort() };
  return before.sorted;
}

/** SHA-256 in lower-case hexadecimal. */
export function sha256(...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(part);
  return hash.digest("hex");
}

/** What stands for a sealed value elsewhere: it says nothing about the value once salt and value are erased. */
export function commitment(salt: string, value: string): string {
  return sha256(Buffer.from(salt, "hex"), value);
}
