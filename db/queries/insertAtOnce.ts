import { getTableColumns, type SQL, sql } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import type { TableSaid } from "#server/terms/tableSaid";
import type { Tx } from "../store";

const AT_ONCE = 5_000;

/**
 * Many rows in few statements: a column goes as one array, or as one value where all rows share it.
 *
 * PostgreSQL refuses COPY on tables with row-level security.
 */
export async function insertAtOnce(
  tx: Tx,
  table: PgTable,
  { rows, columns }: TableSaid,
  told?: (rows: number) => Promise<void>,
): Promise<void> {
  const types = new Map(Object.values(getTableColumns(table)).map((column) => [column.name, column.getSQLType()]));
  const typeOf = (name: string) => types.get(name) ?? "text";
  const identifiers = (some: TableSaid["columns"]) =>
    sql.join(
      some.map(({ name }) => sql.identifier(name)),
      sql`, `,
    );
  const varying = columns.filter(({ each }) => each !== null);
  const values = columns.map((column) => {
    const type = typeOf(column.name);
    return column.each === null
      ? sql`${column.all === null ? null : plain(column.all, type)}::text::${sql.raw(type)}`
      : sql`${sql.identifier(column.name)}::${sql.raw(type)}`;
  });
  for (let from = 0; from < rows; from += AT_ONCE) {
    const to = Math.min(from + AT_ONCE, rows);
    const arrays = varying.map(({ name, each }) => arrayOf(each?.slice(from, to) ?? [], typeOf(name)));
    const given =
      arrays.length === 0
        ? sql`generate_series(1, ${to - from}::int)`
        : sql`unnest(${sql.join(arrays, sql`, `)}) as given (${identifiers(varying)})`;
    await tx.execute(
      sql`insert into ${table} (${identifiers(columns)}) select ${sql.join(values, sql`, `)} from ${given}`,
    );
    await told?.(to);
  }
}

/** JSON texts as an array of texts as the database writes the type. JSON has no bare line ends, and is never empty. */
function arrayOf(texts: readonly (string | null)[], type: string): SQL {
  if (type.startsWith("json")) return sql`string_to_array(${texts.join("\n")}::text, ${"\n"}::text, ''::text)`;
  const written = type.endsWith("[]") ? (text: string) => quoted(plain(text, type)) : element;
  return sql`${`{${texts.map((text) => (text === null ? "NULL" : written(text))).join(",")}}`}::text::text[]`;
}

/** An element of an array is written as in JSON, but for what JSON escapes. */
function element(text: string): string {
  return text.includes("\\") ? quoted(JSON.parse(text)) : text;
}

/** A JSON text as the database writes a value of the type. */
function plain(text: string, type: string): string {
  if (type.startsWith("json")) return text;
  const value: unknown = JSON.parse(text);
  return Array.isArray(value) ? `{${value.map(quoted).join(",")}}` : String(value);
}

function quoted(value: unknown): string {
  return `"${String(value).replace(/["\\]/g, "\\$&")}"`;
}
