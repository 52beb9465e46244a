import { mkdir, open, rename, unlink } from "node:fs/promises";
import { dirname } from "node:path";

/** Writes aside, syncs, renames, syncs the folder: the name never stands for half a file. */
export async function keepSynced(path: string, bytes: Uint8Array | string): Promise<void> {
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  const aside = `${path}.${process.pid}.${Math.random().toString(36).slice(2)}`;
  const file = await open(aside, "w", 0o600);
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
  await rename(aside, path).catch(async (trouble: unknown) => {
    await unlink(aside).catch(() => {});
    throw trouble;
  });
  await syncFolder(dirname(path));
  await syncFolder(dirname(dirname(path)));
}

/** Syncs a folder, so that a name made in it survives a power cut. */
export async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, "r");
  await folder.sync().finally(() => folder.close());
}
