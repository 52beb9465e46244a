import { getTableColumns, sql } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import type { Tx } from "../store";

const AT_ONCE = 5_000;

/**
 * Many rows in few statements, keyed by column name: each column goes as one array.
 *
 * COPY would be faster still, but PostgreSQL refuses it on tables with row-level security.
 */
export async function insertAtOnce(
  tx: Tx,
  table: PgTable,
  rows: readonly Readonly<Record<string, unknown>>[],
  told?: (rows: number) => Promise<void>,
): Promise<void> {
  const columns = Object.values(getTableColumns(table));
  const names = columns.map(({ name }) => sql.identifier(name));
  const all = sql.join(names, sql`, `);
  const cast = sql.join(
    columns.map((column, at) => sql`${names[at]}::${sql.raw(column.getSQLType())}`),
    sql`, `,
  );
  for (let from = 0; from < rows.length; from += AT_ONCE) {
    const some = rows.slice(from, from + AT_ONCE);
    const arrays = columns.map((column) => {
      const written = writerOf(column.getSQLType());
      return sql`${arrayOf(
        some.map((row) => row[column.name]),
        written,
      )}::text::text[]`;
    });
    await tx.execute(
      sql`insert into ${table} (${all}) select ${cast} from unnest(${sql.join(arrays, sql`, `)}) as given (${all})`,
    );
    await told?.(Math.min(from + AT_ONCE, rows.length));
  }
}

type Writer = (value: unknown) => string;

/** A value as an element of an array that the database reads from text. */
function writerOf(type: string): Writer {
  // JSON has no bare control characters, so that a text of it in JSON is escaped just as an element of an array is
  if (type.startsWith("json")) return (value) => JSON.stringify(JSON.stringify(value));
  const text: Writer = type.endsWith("[]") ? (value) => arrayOf(Array.isArray(value) ? value : [], quoted) : String;
  return (value) => quoted(text(value));
}

function quoted(value: unknown): string {
  return `"${String(value).replace(/["\\]/g, "\\$&")}"`;
}

function arrayOf(values: readonly unknown[], written: Writer): string {
  const elements = values.map((value) => (value === null || value === undefined ? "NULL" : written(value)));
  return `{${elements.join(",")}}`;
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
