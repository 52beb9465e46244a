import type { ColumnSaid, TableSaid } from "#server/terms/tableSaid";

/** Writes a value as JSON. */
export type Say = (value: unknown) => string;

/** Some rows column by column. Each column tells how a row names its value, or has the one value of all rows. */
export function tableSaid<T>(
  rows: readonly T[],
  columns: readonly { readonly name: string; readonly of: (row: T) => unknown }[],
  say: Say,
): TableSaid {
  return { rows: rows.length, columns: columns.map(({ name, of }) => columnSaid(name, rows, of, say)) };
}

function columnSaid<T>(name: string, rows: readonly T[], of: (row: T) => unknown, say: Say): ColumnSaid {
  let before: unknown;
  let text: string | null = null;
  const each = rows.map((row) => {
    const value = of(row);
    if (value !== before) text = textOf(value, say);
    before = value;
    return text;
  });
  const all = each[0] ?? null;
  return each.every((one) => one === all) ? { name, all, each: null } : { name, each };
}

const NOT_AS_IT_IS = /["\\\u0000-\u001f\ud800-\udfff]/;

function textOf(value: unknown, say: Say): string | null {
  if (typeof value === "string") return NOT_AS_IT_IS.test(value) ? JSON.stringify(storable(value)) : `"${value}"`;
  if (typeof value === "number") return Number.isFinite(value) ? `${value}` : null;
  if (typeof value === "boolean") return `${value}`;
  if (value === null || value === undefined) return null;
  const text = say(value);
  // What the database cannot hold is escaped in JSON.
  return text.includes("\\u") ? say(held(value)) : text;
}
/** A value as the database holds it in JSON: without members that are undefined, and with texts that it can hold. */
export function held(value: unknown): unknown {
  if (isHeld(value)) return value;
  if (typeof value === "string") return storable(value);
  if (typeof value === "number") return Number.isFinite(value) ? value + 0 : null;
  if (value === null || typeof value !== "object") return value ?? null;
  if (Array.isArray(value)) return value.map(held);
  const members = Object.entries(value).filter(([, member]) => member !== undefined);
  return Object.fromEntries(members.map(([key, member]) => [storable(key), held(member)]));
}

/** Nearly every value is held as it is: looking costs less than writing it anew. */
function isHeld(value: unknown): boolean {
  if (typeof value === "string") return isStorable(value);
  if (typeof value === "number") return Number.isFinite(value) && !Object.is(value, -0);
  if (value === null || typeof value !== "object") return value !== undefined;
  if (Array.isArray(value)) return value.every(isHeld);
  const members = value as Readonly<Record<string, unknown>>;
  return Object.keys(members).every((key) => isStorable(key) && isHeld(members[key]));
}

function isStorable(text: string): boolean {
  return text.isWellFormed() && !text.includes("\u0000");
}

/** The database holds no NUL and no half of a surrogate pair. */
function storable(text: string): string {
  return isStorable(text) ? text : text.toWellFormed().replaceAll("\u0000", "\u2400");
}
