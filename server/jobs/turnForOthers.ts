import type { Corridor } from "./record";

/** Others have so long for themselves as the work before it took, up to this. */
const LONGEST_MS = 300;

/** Another machine's database answers others meanwhile: only what is planned here keeps the thread that answers pages. */
const SHARE_HERE = 0.5;

/** The embedded database answers one at a time, on the thread that answers pages: whoever waits comes in between. */
export async function turnForOthers({ store }: Corridor, tookMs: number): Promise<void> {
  const ms = Math.min(store.kind === "embedded" ? tookMs : tookMs * SHARE_HERE, LONGEST_MS);
  await new Promise((on) => setTimeout(on, ms));
}
