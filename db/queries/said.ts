import type { ColumnSaid, TableSaid } from "#server/terms/tableSaid";

/** Writes a value as JSON. */
export type Say = (value: unknown) => string;

/** A column, and what a row says in it. */
export interface Asked<T> {
  readonly name: string;
  readonly of: (row: T) => unknown;
}

/** So many rows are written at once: enough to ask the database seldom, and what was written of them is soon forgotten. */
const AT_ONCE = 2_000;

/** Rows column by column, in pieces. Each column of a piece has a text a row, or the one text of all its rows. */
export function* tablesSaid<T>(rows: readonly T[], columns: readonly Asked<T>[], say: Say): Generator<TableSaid> {
  for (let from = 0; from < rows.length; from += AT_ONCE) {
    const some = rows.length <= AT_ONCE ? rows : rows.slice(from, from + AT_ONCE);
    yield { rows: some.length, columns: columns.map((column) => columnSaid(some, column, say)) };
  }
}

function columnSaid<T>(rows: readonly T[], { name, of }: Asked<T>, say: Say): ColumnSaid {
  const [first] = rows;
  if (first === undefined) return { name, all: null, each: null };
  let before = of(first);
  let text = textOf(before, say);
  const all = text;
  let at = 1;
  while (at < rows.length && text === all) {
    const value = of(rows[at]!);
    if (value !== before) text = textOf(value, say);
    before = value;
    at++;
  }
  if (text === all) return { name, all, each: null };
  const bare = bareTexts(rows, of);
  if (bare !== null) return { name, each: bare, bare: true };
  const each = new Array<string | null>(rows.length).fill(all);
  each[at - 1] = text;
  for (; at < rows.length; at++) {
    const value = of(rows[at]!);
    if (value !== before) text = textOf(value, say);
    before = value;
    each[at] = text;
  }
  return { name, each };
}

/** The texts of a column that has no other values and in none of its texts what JSON escapes; null for any other column. */
function bareTexts<T>(rows: readonly T[], of: Asked<T>["of"]): (string | null)[] | null {
  const each = new Array<string | null>(rows.length).fill(null);
  let before: unknown = null;
  for (let at = 0; at < rows.length; at++) {
    const value = of(rows[at]!) ?? null;
    if (value === null) continue;
    if (value !== before && (typeof value !== "string" || NOT_AS_IT_IS.test(value))) return null;
    before = value;
    each[at] = value as string;
  }
  return each;
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
