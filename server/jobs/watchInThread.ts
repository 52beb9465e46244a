import { join } from "node:path";
import { Worker } from "node:worker_threads";
import type { WatchOrder, WatchRows } from "./watchOrder";
import { watchPlan } from "./watchPlan";

/** A short order is planned faster than a thread begins. */
const SHORT = 20_000;
/** A thread that has nothing to do is let go after so long: it remembers scores, and monthly logs come in the same days. */
const IDLE_MS = 15 * 60_000;

/** A thread that plans, the one order it is at, and when it is let go. */
interface Planner {
  readonly worker: Worker;
  answer: ((answer: WatchRows | Error) => void) | null;
  idle: NodeJS.Timeout | null;
}

/** A planner that is free, for the whole process, whichever bundle asks. */
const here: typeof globalThis & { evendryPlanner?: Planner | null } = globalThis;

/** Plans on a thread of its own where it takes long, so that the server answers others meanwhile. */
export async function planInThread(order: WatchOrder): Promise<WatchRows> {
  if (pointsOf(order) < SHORT) return watchPlan(order);
  const planner = here.evendryPlanner ?? hire();
  here.evendryPlanner = null;
  if (planner.idle !== null) clearTimeout(planner.idle);
  planner.worker.ref();
  return new Promise((resolve, reject) => {
    planner.answer = (answer) => {
      planner.answer = null;
      if (answer instanceof Error) {
        reject(answer);
        dismiss(planner, answer);
        return;
      }
      free(planner);
      resolve(answer);
    };
    planner.worker.postMessage(order);
  });
}

function hire(): Planner {
  const worker = new Worker(join(/*turbopackIgnore: true*/ process.cwd(), "server/jobs/watchThread.mjs"));
  const planner: Planner = { worker, answer: null, idle: null };
  worker.on("message", (told: { rows: WatchRows } | { trouble: string }) => {
    planner.answer?.("rows" in told ? told.rows : new Error(told.trouble));
  });
  worker.on("error", (trouble) => dismiss(planner, trouble instanceof Error ? trouble : new Error(String(trouble))));
  worker.on("exit", () => dismiss(planner, new Error("the thread that watches ended before it answered")));
  return planner;
}

/** Kept warm for the next order; of two that are free one is enough. */
function free(planner: Planner): void {
  planner.worker.unref();
  if (here.evendryPlanner !== null && here.evendryPlanner !== undefined) {
    dismiss(planner, new Error("not needed"));
    return;
  }
  here.evendryPlanner = planner;
  planner.idle = setTimeout(() => dismiss(planner, new Error("idle")), IDLE_MS).unref();
}

function dismiss(planner: Planner, why: Error): void {
  if (here.evendryPlanner === planner) here.evendryPlanner = null;
  planner.answer?.(why);
  planner.worker.terminate().catch(() => {});
}

/** Points to score: days of all streams, once for each month. */
function pointsOf({ sites, from, to }: WatchOrder): number {
  const months =
    (Number(to.slice(0, 4)) - Number(from.slice(0, 4))) * 12 + Number(to.slice(5)) - Number(from.slice(5)) + 1;
  const days = sites.map(({ streams }) => streams.reduce((sum, { series }) => sum + series.day.length, 0));
  return months * days.reduce((sum, count) => sum + count, 0);
}
