import { sql } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import type { Tx } from "../store";

const AT_ONCE = 5_000;

/** Many rows in few statements, keyed by column name: the insert builder is twenty times slower. */
export async function insertAtOnce(tx: Tx, table: PgTable, rows: readonly object[]): Promise<void> {
  for (let from = 0; from < rows.length; from += AT_ONCE) {
    const some = JSON.stringify(rows.slice(from, from + AT_ONCE), storable);
    await tx.execute(sql`insert into ${table} select * from jsonb_populate_recordset(null::${table}, ${some}::jsonb)`);
  }
}

/** The database holds no NUL and no half of a surrogate pair. */
export function storable(_key: string, value: unknown): unknown {
  return typeof value === "string" ? value.toWellFormed().replaceAll("\u0000", "\u2400") : value;
}
