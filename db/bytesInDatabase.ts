import { sql } from "drizzle-orm";
import { rowsOf } from "./rowsOf";
import { fileBytes } from "./schema";
import type { Storage } from "./storage";

/**
 * Storage on PostgreSQL: bytes beside the rows, in the same transaction. They go and come as base64: the driver writes
 * bytes in hexadecimal, which keeps a thread that answers others for half a second with nine million of them.
 */
export function bytesInDatabase(): Storage {
  return {
    keep: async (tx, sha256, bytes) => {
      const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("base64");
      await tx.execute(
        sql`insert into ${fileBytes} (sha256, bytes) values (${sha256}, decode(${text}, 'base64')) on conflict do nothing`,
      );
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
      const [found] = rowsOf<{ text: string }>(
        await tx.execute(sql`select encode(bytes, 'base64') as text from ${fileBytes} where sha256 = ${sha256}`),
      );
      return found === undefined ? undefined : new Uint8Array(Buffer.from(found.text, "base64"));
    },
    settle: async () => {},
    forget: async () => {},
    room: async () => {},
  };
}
