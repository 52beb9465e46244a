import type { Corridor } from "./record";

/** Others have so long for themselves as the work before it took, up to this. */
const LONGEST_MS = 300;

/** The embedded database answers one at a time, on the thread that answers pages: whoever waits comes in between. */
export async function turnForOthers({ store }: Corridor, tookMs: number): Promise<void> {
  const ms = store.kind === "embedded" ? Math.min(tookMs, LONGEST_MS) : 0;
  await new Promise((on) => setTimeout(on, ms));
}
