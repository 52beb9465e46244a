import { closeSync, mkdirSync, openSync, readFileSync, rmSync, writeSync } from "node:fs";
import { join } from "node:path";
import { PGlite } from "@electric-sql/pglite";
import { sql } from "drizzle-orm";
import { drizzle } from "drizzle-orm/pglite";
import { CannotStart } from "#server/cannotStart";
import { journalAndInbox } from "./inbox";
import { migrateEmbedded } from "./migrate";
import * as schema from "./schema";
import type { Database, Store } from "./store";

/** Opens the embedded database in a folder, migrated. `dataDir` null: in memory, with its inbox in `inbox`. */
export async function openEmbedded(dataDir: string): Promise<Store> {
  const release = takeLock(dataDir);
  try {
    const folder = join(dataDir, "database");
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const client = await PGlite.create({ dataDir: folder });
    const db: Database = drizzle(client, { schema });
    await db.execute(sql`set time zone 'UTC'`);
    await migrateEmbedded(db);
    const storage = await journalAndInbox(db, dataDir);
    return {
      kind: "embedded",
      db,
      storage,
      owner: async () => ({ db, close: async () => {} }),
      close: async () => {
        await client.close();
        release();
      },
    };
  } catch (trouble) {
    release();
    throw trouble;
  }
}

/**
 * The embedded database does not lock its folder, and two openers lose each other's rows. So one file names the
 * owner by process and by that process's start; a dead owner's file is taken over, a living one's never.
 */
function takeLock(dataDir: string): () => void {
  const path = join(dataDir, "in-use");
  try {
    mkdirSync(dataDir, { recursive: true, mode: 0o700 });
    for (let tries = 0; tries < 2; tries++) {
      try {
        const file = openSync(path, "wx", 0o600);
        writeSync(file, JSON.stringify({ pid: process.pid, started: startOf(process.pid) }));
        closeSync(file);
        return () => rmSync(path, { force: true });
      } catch (trouble) {
        if (codeOf(trouble) !== "EEXIST") throw trouble;
        const owner = ownerOf(path);
        if (owner !== null) {
          throw new CannotStart(
            `The data folder ${dataDir} is in use by process ${owner}. Stop that one first, or set DATA_DIR to another folder.`,
          );
        }
        rmSync(path, { force: true });
      }
    }
  } catch (trouble) {
    if (["EACCES", "EROFS", "EPERM"].includes(codeOf(trouble))) {
      throw new CannotStart(
        `The data folder ${dataDir} cannot be written. Give this user the right to write there, or set DATA_DIR to another folder.`,
      );
    }
    throw trouble;
  }
  throw new CannotStart(`The data folder ${dataDir} is being opened by another process. Try again in a moment.`);
}

/** The process that holds the folder, or null when it is gone. */
function ownerOf(path: string): number | null {
  try {
    const { pid, started } = JSON.parse(readFileSync(path, "utf8")) as { pid: number; started: string | null };
    const now = startOf(pid);
    if (now !== null) return now === started ? pid : null;
    process.kill(pid, 0);
    return started === null ? pid : null;
  } catch (trouble) {
    return codeOf(trouble) === "EPERM" ? -1 : null;
  }
}

/** When a process was started, in the kernel's ticks since boot, with the boot's id; null where that is not told. */
function startOf(pid: number): string | null {
  try {
    const after = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1) ?? "";
    return `${readFileSync("/proc/sys/kernel/random/boot_id", "utf8").trim()} ${after.split(" ")[19]}`;
  } catch {
    return null;
  }
}

function codeOf(trouble: unknown): string {
  return trouble instanceof Error && "code" in trouble ? String(trouble.code) : "";
}
