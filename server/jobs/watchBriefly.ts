import type { Store } from "#db/store";
import { watchNow } from "./watchNow";

/** A page waits so long for what came to be watched: usually more than enough, and no time to wonder whether it hangs. */
const BRIEFLY_MS = 2000;

/** Brings the recorded signals up to the ledger, waited for only briefly; what is still under way then goes on by itself. */
export async function watchBriefly(store: Store): Promise<"watched" | "under-way"> {
  let [late, timer]: [boolean, NodeJS.Timeout | undefined] = [false, undefined];
  const enough = new Promise<"under-way">((done) => {
    timer = setTimeout(() => {
      late = true;
      done("under-way");
    }, BRIEFLY_MS);
  });
  const watching = watchNow(store).then(() => "watched" as const);
  // whoever asked is gone by then, so nobody else would write it down
  watching.catch((trouble: unknown) => late && console.error(trouble));
  return Promise.race([watching, enough]).finally(() => clearTimeout(timer));
}
