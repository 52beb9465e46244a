import { join } from "node:path";
import { Worker } from "node:worker_threads";
import type { WatchOrder, WatchRows } from "./watchOrder";
import { watchPlan } from "./watchPlan";

/** A short order is planned faster than a thread begins. */
const SHORT = 20_000;
/** A thread that has nothing to do is let go after so long. */
const IDLE_MS = 30_000;

/** A thread that plans, and when it is let go. */
interface Planner {
  readonly worker: Worker;
  idle: NodeJS.Timeout | null;
}

/** One planner for the whole process, whichever bundle asks. */
const here: typeof globalThis & { evendryPlanner?: Planner | null } = globalThis;

/** Plans on a thread of its own where it takes long, so that the server answers others meanwhile. One order at a time. */
export async function planInThread(order: WatchOrder): Promise<WatchRows> {
  if (pointsOf(order) < SHORT) return watchPlan(order);
  const planner = here.evendryPlanner ?? hire();
  here.evendryPlanner = null;
  if (planner.idle !== null) clearTimeout(planner.idle);
  const { worker } = planner;
  worker.ref();
  try {
    return await new Promise<WatchRows>((resolve, reject) => {
      worker.once("message", (told: { rows: WatchRows } | { trouble: string }) => {
        if ("rows" in told) resolve(told.rows);
        else reject(new Error(told.trouble));
      });
      worker.once("error", reject);
      worker.once("exit", () => reject(new Error("the thread that watches ended before it answered")));
      worker.postMessage(order);
    });
  } finally {
    worker.removeAllListeners();
    worker.unref();
    keep(planner);
  }
}

function hire(): Planner {
  const worker = new Worker(join(/*turbopackIgnore: true*/ process.cwd(), "server/jobs/watchThread.mjs"));
  return { worker, idle: null };
}

function keep(planner: Planner): void {
  const before = here.evendryPlanner;
  here.evendryPlanner = planner;
  if (before !== null && before !== undefined) void before.worker.terminate();
  planner.idle = setTimeout(() => {
    if (here.evendryPlanner === planner) here.evendryPlanner = null;
    void planner.worker.terminate();
  }, IDLE_MS).unref();
}

/** Points to score: days of all streams, once for each month. */
function pointsOf({ sites, from, to }: WatchOrder): number {
  const months =
    (Number(to.slice(0, 4)) - Number(from.slice(0, 4))) * 12 + Number(to.slice(5)) - Number(from.slice(5)) + 1;
  const days = sites.map(({ streams }) => streams.reduce((sum, { series }) => sum + series.day.length, 0));
  return months * days.reduce((sum, count) => sum + count, 0);
}
