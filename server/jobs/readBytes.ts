import { join } from "node:path";
import { Worker } from "node:worker_threads";
import type { Bounds, Hints, Reading, Unreadable } from "#server/terms/row";

export interface ReadOrder {
  readonly bytes: Uint8Array;
  readonly hints: Hints;
  readonly bounds: Bounds;
  /** also what the log shows of faults, and with "all" what each choice of its questions would make of it */
  readonly look?: "faults" | "all";
}

const LONGEST_MS = 60_000;

/** A thread that reads, and the one order it is at. */
interface Reader {
  readonly worker: Worker;
  answer: ((answer: Reading | Unreadable | Error) => void) | null;
}

/** One reader for the whole process, kept warm; a file that takes too long ends it, and the next file gets a new one. */
const here: typeof globalThis & { evendryReader?: Reader | null; evendryTurn?: Promise<unknown> } = globalThis;

/** Reads a log on a thread of its own, one at a time, so that the server answers others meanwhile. */
export function readBytes(order: ReadOrder): Promise<Reading | Unreadable> {
  const mine = (here.evendryTurn ?? Promise.resolve()).then(() => readOne(order));
  here.evendryTurn = mine.catch(() => {});
  return mine;
}

function readOne(order: ReadOrder): Promise<Reading | Unreadable> {
  here.evendryReader ??= hire();
  const reader = here.evendryReader;
  reader.worker.ref();
  return new Promise((resolve, reject) => {
    const late = setTimeout(
      () => dismiss(reader, { refused: "too-slow", detail: `${LONGEST_MS / 1000} s` }),
      LONGEST_MS,
    );
    reader.answer = (answer) => {
      clearTimeout(late);
      reader.answer = null;
      reader.worker.unref();
      if (answer instanceof Error) reject(answer);
      else resolve(answer);
    };
    reader.worker.postMessage(order);
  });
}

function hire(): Reader {
  const worker = new Worker(join(/*turbopackIgnore: true*/ process.cwd(), "server/jobs/readingThread.mjs"), {
    resourceLimits: { maxOldGenerationSizeMb: 1024 },
  });
  const reader: Reader = { worker, answer: null };
  worker.on("message", (told: { reading: Reading | Unreadable } | { trouble: string }) => {
    reader.answer?.("reading" in told ? told.reading : new Error(told.trouble));
  });
  // A thread that ran out of memory ends by an error of its own.
  worker.on("error", () => dismiss(reader, { refused: "too-slow", detail: "memory" }));
  worker.on("exit", () => dismiss(reader, { refused: "too-slow", detail: "ended" }));
  return reader;
}

function dismiss(reader: Reader, answer: Unreadable): void {
  if (here.evendryReader === reader) here.evendryReader = null;
  reader.answer?.(answer);
  reader.worker.terminate().catch(() => {});
}
