import { eq, sql } from "drizzle-orm";
import { rowsOf } from "./rowsOf";
import { fileBytes } from "./schema";
import type { Storage } from "./storage";

/** Storage on PostgreSQL: bytes beside the rows, in the same transaction. */
export function bytesInDatabase(): Storage {
  return {
    keep: async (tx, sha256, bytes) => {
      await tx.insert(fileBytes).values({ sha256, bytes }).onConflictDoNothing();
    },
    // Put together inside the database, so that they are never whole in this process.
    keepPieces: async (tx, sha256, pieces) => {
      const [made] = rowsOf<{ id: number }>(await tx.execute(sql`select lo_create(0)::int8::float8 as id`));
      const id = made?.id ?? 0;
      let at = 0;
      for await (const piece of pieces) {
        await tx.execute(sql`select lo_put(${id}::int8::oid, ${at}::int8, ${piece}::bytea)`);
        at += piece.length;
      }
      await tx.execute(
        sql`insert into ${fileBytes} (sha256, bytes) select ${sha256}, lo_get(${id}::int8::oid) on conflict do nothing`,
      );
      await tx.execute(sql`select lo_unlink(${id}::int8::oid)`);
    },
    bytes: async (tx, sha256) => {
      const [found] = await tx.select({ bytes: fileBytes.bytes }).from(fileBytes).where(eq(fileBytes.sha256, sha256));
      return found === undefined ? undefined : new Uint8Array(found.bytes);
    },
    settle: async () => {},
    forget: async () => {},
    room: async () => {},
  };
}
