import { readSettings, type Settings } from "#server/settings";
import { openEmbedded } from "./embedded";
import { openPostgres } from "./postgres";
import type { Store } from "./store";

const here: typeof globalThis & { evendryStore?: Promise<Store> } = globalThis;

/** The store of this process. One promise for all bundles that share the process, because one process may own it once. */
export function theStore(): Promise<Store> {
  here.evendryStore ??= openStore(readSettings());
  return here.evendryStore;
}

/** Closes the store of this process where one was opened. */
export async function closeTheStore(): Promise<void> {
  const opened = await here.evendryStore?.catch(() => null); // what could not be opened needs no closing
  delete here.evendryStore;
  await opened?.close();
}

/** Opens the store that the settings name; the caller closes it. */
export function openStore(settings: Pick<Settings, "databaseUrl" | "databaseOwnerUrl" | "dataDir">): Promise<Store> {
  if (settings.databaseUrl !== null) return openPostgres(settings.databaseUrl, settings.databaseOwnerUrl);
  return openEmbedded(settings.dataDir);
}
