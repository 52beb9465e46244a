import { join } from "node:path";
import { Worker } from "node:worker_threads";
import type { WatchOrder, WatchRows } from "./watchOrder";
import { watchPlan } from "./watchPlan";

/** A short order is planned faster than a thread begins. */
const SHORT = 20_000;

/** Plans on a thread of its own where it takes long, so that the server answers others meanwhile. */
export function planInThread(order: WatchOrder): Promise<WatchRows> {
  if (pointsOf(order) < SHORT) return Promise.resolve(watchPlan(order));
  const worker = new Worker(join(/*turbopackIgnore: true*/ process.cwd(), "server/jobs/watchThread.mjs"));
  return new Promise<WatchRows>((resolve, reject) => {
    worker.once("message", (told: { rows: WatchRows } | { trouble: string }) => {
      if ("rows" in told) resolve(told.rows);
      else reject(new Error(told.trouble));
    });
    worker.once("error", reject);
    worker.once("exit", () => reject(new Error("the thread that watches ended before it answered")));
    worker.postMessage(order);
  }).finally(() => worker.terminate());
}

/** Points to score: days of all streams, once for each month. */
function pointsOf({ sites, from, to }: WatchOrder): number {
  const months =
    (Number(to.slice(0, 4)) - Number(from.slice(0, 4))) * 12 + Number(to.slice(5)) - Number(from.slice(5)) + 1;
  return (
    months *
    sites.reduce((sum, { streams }) => sum + streams.reduce((all, { series }) => all + series.day.length, 0), 0)
  );
}
