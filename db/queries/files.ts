import { and, asc, desc, eq, gt, isNull, lte } from "drizzle-orm";
import { fileStates, files } from "../schema";
import type { Tx } from "../store";

export type FileRow = typeof files.$inferSelect;
export type StateRow = typeof fileStates.$inferSelect;
export type FileState = "arrived" | "read" | "settled" | "counted" | "withdrawn";

/** A file with the last thing that became of it. */
export interface FileNow {
  readonly file: FileRow;
  readonly state: FileState;
  readonly detail: unknown;
}

export async function fileById(tx: Tx, id: string): Promise<FileNow | undefined> {
  const [file] = await tx.select().from(files).where(eq(files.id, id));
  return file === undefined ? undefined : withState(tx, file);
}

/** The files with these bytes of an owner, newest first. `site` null: the programme. */
export async function sameFiles(tx: Tx, site: number | null, sha256: string): Promise<FileNow[]> {
  const same = await tx
    .select()
    .from(files)
    .where(and(eq(files.sha256, sha256), site === null ? isNull(files.site) : eq(files.site, site)))
    .orderBy(desc(files.ledgerIndex));
  const now: FileNow[] = [];
  for (const file of same) now.push(await withState(tx, file));
  return now;
}

/** The latest files that the person may see, newest first. */
export async function latestFiles(tx: Tx, site: number | null, size: number, most: number): Promise<FileNow[]> {
  const found = await tx
    .select()
    .from(files)
    .where(and(lte(files.ledgerIndex, size), site === null ? undefined : eq(files.site, site)))
    .orderBy(desc(files.ledgerIndex))
    .limit(most);
  const now: FileNow[] = [];
  for (const file of found) now.push(await withState(tx, file));
  return now;
}

/** Every file there is, in the order in which they arrived: for checking everything. */
export async function everyFile(tx: Tx): Promise<FileRow[]> {
  return tx.select().from(files).orderBy(asc(files.ledgerIndex), asc(files.id));
}

/** What became of a file, oldest first: all of it, or what did after a record. */
export async function statesOf(tx: Tx, file: string, after = 0): Promise<StateRow[]> {
  return tx
    .select()
    .from(fileStates)
    .where(and(eq(fileStates.file, file), gt(fileStates.ledgerIndex, after)))
    .orderBy(asc(fileStates.ledgerIndex));
}

const ORDER: readonly string[] = ["arrived", "read", "settled", "counted", "withdrawn"];

async function withState(tx: Tx, file: FileRow): Promise<FileNow> {
  const states = await statesOf(tx, file.id);
  const last = states
    .sort((a, b) => a.ledgerIndex - b.ledgerIndex || ORDER.indexOf(a.state) - ORDER.indexOf(b.state))
    .at(-1);
  return { file, state: (last?.state ?? "arrived") as FileState, detail: last?.detail ?? null };
}
