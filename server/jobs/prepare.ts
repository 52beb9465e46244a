import { theStore } from "#db/client";
import { begin } from "./begin";

export interface NewSignIn {
  readonly role: string;
  readonly name: string;
  readonly password: string;
}

/** Opens and migrates the database and begins its ledger. Answers with sign-ins that were made for a new demo, told once. */
export async function prepare(): Promise<{ signIns: readonly NewSignIn[] }> {
  const store = await theStore();
  await begin(store, () => new Date());
  return { signIns: [] };
}
