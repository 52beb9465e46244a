import { createHash } from "node:crypto";
import { readFile, statfs } from "node:fs/promises";
import { join } from "node:path";
import { Journal } from "./journal";
import { keepSynced } from "./keepSynced";
import { recordsAfter } from "./queries/ledger";
import { changesOf } from "./queries/recorded";
import { sealedOf } from "./queries/sealed";
import { CannotStore, type JournalLine, type Storage } from "./storage";
import type { Database } from "./store";

/** What must stay free on the disk: a full one hangs the embedded database. */
const RESERVE = 256 * 2 ** 20;
const NO_ROOM =
  "There is not enough room on the disk of this installation to keep the file. Nothing was stored; tell whoever looks after it, then send again.";

/** Storage of the embedded database: a synced inbox of originals, a synced journal of records, sealed values apart. */
export async function journalAndInbox(db: Database, dataDir: string): Promise<Storage> {
  const journal = await Journal.open(join(dataDir, "journal"));
  let turn: Promise<void> = Promise.resolve();

  async function append(lines: readonly JournalLine[]): Promise<void> {
    for (const { index, sealed } of lines) {
      if (sealed.length > 0) await keepSynced(sealedPath(dataDir, index), JSON.stringify(sealed));
    }
    await journal.append(lines.map(({ sealed: _apart, ...line }) => line));
  }

  /** Appends what the journal lacks, in order: at the start, where a crash may have come between commit and journal. */
  async function catchUp(): Promise<void> {
    for (;;) {
      const lines = await db.transaction(async (tx) => {
        const records = await recordsAfter(tx, journal.size, 10);
        const whole: JournalLine[] = [];
        for (const record of records) {
          whole.push({
            ...record,
            changes: await changesOf(tx, record.index),
            sealed: await sealedOf(tx, record.index),
          });
        }
        return whole;
      });
      if (lines.length === 0) return;
      await append(lines);
    }
  }

  await catchUp();
  return {
    keep: async (_tx, sha256, bytes) => keepSynced(inboxPath(dataDir, sha256), bytes),
    keepPieces: async (_tx, sha256, pieces) => {
      const all: Uint8Array[] = [];
      for await (const piece of pieces) all.push(piece);
      await keepSynced(inboxPath(dataDir, sha256), Buffer.concat(all));
    },
    bytes: async (_tx, sha256) => readKept(dataDir, sha256),
    settle: async (line) => {
      const mine = turn
        .catch(() => {})
        .then(() => (line.index === journal.size + 1 ? append([{ ...line, changes: line.changes() }]) : catchUp()));
      turn = mine;
      await mine;
    },
    forget: async (left) => {
      for (const [index, sealed] of left) await keepSynced(sealedPath(dataDir, index), JSON.stringify(sealed));
    },
    room: async (bytes) => {
      const disk = await statfs(dataDir);
      if (disk.bavail * disk.bsize < RESERVE + 20 * bytes) throw new CannotStore(NO_ROOM);
    },
  };
}

export function inboxPath(dataDir: string, sha256: string): string {
  return join(dataDir, "inbox", sha256.slice(0, 2), sha256);
}

export function sealedPath(dataDir: string, index: number): string {
  return join(dataDir, "sealed", `${String(index).padStart(9, "0")}.json`);
}

async function readKept(dataDir: string, sha256: string): Promise<Uint8Array | undefined> {
  const bytes = await readFile(inboxPath(dataDir, sha256)).catch(() => undefined);
  if (bytes === undefined) return undefined;
  return createHash("sha256").update(bytes).digest("hex") === sha256 ? bytes : undefined;
}
