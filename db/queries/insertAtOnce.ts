import { getTableColumns, type SQL, sql } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import type { ColumnSaid, TableSaid } from "#server/terms/tableSaid";
import type { Tx } from "../store";

/**
 * Many rows in one statement: a column goes as one array, or as one value where all rows share it.
 *
 * PostgreSQL refuses COPY on tables with row-level security. Arrays are unnested side by side in a select list, from
 * where they come row by row, and are given with the column's own type, so that they are read once: after a cast in the
 * statement the planner would read them too.
 */
export async function insertAtOnce(tx: Tx, table: PgTable, { rows, columns }: TableSaid): Promise<void> {
  const types = new Map(Object.values(getTableColumns(table)).map((column) => [column.name, column.getSQLType()]));
  const typeOf = (name: string) => types.get(name) ?? "text";
  const arrays: SQL[] = [];
  const values: SQL[] = [];
  for (const column of columns) {
    const { name, all = null } = column;
    const type = typeOf(name);
    if (column.each === null) values.push(sql`${all === null ? null : plain(all, type)}::text::${sql.raw(type)}`);
    else {
      arrays.push(sql`unnest(${arrayOf(column, type)}) as ${sql.identifier(name)}`);
      values.push(sql`${sql.identifier(name)}::${sql.raw(type)}`);
    }
  }
  const names = columns.map(({ name }) => sql.identifier(name));
  const given =
    arrays.length === 0 ? sql`generate_series(1, ${rows}::int)` : sql`(select ${sql.join(arrays, COMMA)}) as given`;
  await tx.execute(
    sql`insert into ${table} (${sql.join(names, COMMA)}) select ${sql.join(values, COMMA)} from ${given}`,
  );
}

const COMMA = sql`, `;

type Each = Extract<ColumnSaid, { readonly each: readonly unknown[] }>;

/** Texts as an array. JSON has no bare line ends, and is never empty. */
function arrayOf({ each, bare = false }: Each, type: string): SQL {
  if (bare && isPlain(type)) return sql`${`{${inQuotes(each)}}`}::${sql.raw(type)}[]`;
  const texts = bare ? each.map((text) => (text === null ? null : `"${text}"`)) : each;
  if (type.startsWith("json")) return sql`string_to_array(${texts.join("\n")}::text, ${"\n"}::text, ''::text)`;
  const isList = type.endsWith("[]");
  return sql`${`{${isList ? listsIn(texts, type) : elements(texts)}}`}::${sql.raw(isList ? "text" : type)}[]`;
}

function isPlain(type: string): boolean {
  return !type.startsWith("json") && !type.endsWith("[]");
}

function inQuotes(texts: readonly (string | null)[]): string {
  if (!texts.includes(null)) return `"${texts.join('","')}"`;
  return texts.map((text) => (text === null ? "NULL" : `"${text}"`)).join(",");
}

/** Elements of an array are written as in JSON, but for what JSON escapes. */
function elements(texts: readonly (string | null)[]): string {
  const joined = (texts.includes(null) ? texts.map((text) => text ?? "NULL") : texts).join(",");
  if (!joined.includes("\\")) return joined;
  return texts.map((text) => (text?.includes("\\") ? quoted(JSON.parse(text)) : (text ?? "NULL"))).join(",");
}

/** Lists in an array are texts. Most of them are the one before once more. */
function listsIn(texts: readonly (string | null)[], type: string): string {
  let before: string | null = null;
  let written = "NULL";
  const each = texts.map((text) => {
    if (text !== before) written = text === null ? "NULL" : quoted(plain(text, type));
    before = text;
    return written;
  });
  return each.join(",");
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
