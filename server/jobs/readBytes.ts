import { join } from "node:path";
import { Worker } from "node:worker_threads";
import type { Bounds, Hints, Reading, Unreadable } from "#server/terms/row";

export interface ReadOrder {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly hints: Hints;
  readonly bounds: Bounds;
}

const LONGEST_MS = 60_000;

/** One worker for the whole process, kept warm; a file that takes too long ends it, and the next file gets a new one. */
const here: typeof globalThis & { evendryReader?: Worker | null; evendryTurn?: Promise<unknown> } = globalThis;

/** Reads a log on a thread of its own, one at a time, so that the server answers others meanwhile. */
export function readBytes(order: ReadOrder): Promise<Reading | Unreadable> {
  const mine = (here.evendryTurn ?? Promise.resolve()).then(() => readOne(order));
  here.evendryTurn = mine.catch(() => {});
  return mine;
}

/** Ends the reader, so that a command can end. */
export async function dismissReader(): Promise<void> {
  await here.evendryReader?.terminate();
  here.evendryReader = null;
}

function readOne(order: ReadOrder): Promise<Reading | Unreadable> {
  here.evendryReader ??= hire();
  const worker = here.evendryReader;
  worker.ref();
  return new Promise((resolve, reject) => {
    const leave = () => {
      clearTimeout(late);
      worker.removeAllListeners();
      worker.unref();
    };
    const dismiss = () => {
      leave();
      here.evendryReader = null;
      worker.terminate().catch(() => {});
    };
    const late = setTimeout(() => {
      dismiss();
      resolve({ refused: "too-slow", detail: `${LONGEST_MS / 1000} s` });
    }, LONGEST_MS);
    worker.once("message", (answer: { reading: Reading | Unreadable } | { trouble: string }) => {
      leave();
      if ("reading" in answer) resolve(answer.reading);
      else reject(new Error(answer.trouble));
    });
    worker.once("error", (trouble) => {
      dismiss();
      reject(trouble);
    });
    worker.once("exit", () => {
      dismiss();
      resolve({ refused: "too-slow", detail: "memory" });
    });
    worker.postMessage(order);
  });
}

function hire(): Worker {
  return new Worker(join(/*turbopackIgnore: true*/ process.cwd(), "server/jobs/readingThread.mjs"), {
    resourceLimits: { maxOldGenerationSizeMb: 1024 },
  });
}
