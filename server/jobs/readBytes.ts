import { join } from "node:path";
import { Worker } from "node:worker_threads";
import type { Bounds, Hints, Reading, RowRead, Unreadable } from "#server/terms/row";
import type { SoFar } from "#server/terms/soFar";
import { turnForOthers } from "./turnForOthers";
import { goOn, Stopped, type Work, workAtHand } from "./underWay";

export interface ReadOrder {
  readonly bytes: Uint8Array;
  readonly hints: Hints;
  readonly bounds: Bounds;
  /** also what the log shows of faults, and with "all" what each choice of its questions would make of it */
  readonly look?: "faults" | "all";
  /** these bytes are a part of a log: what the part before left; null for the first */
  readonly before?: SoFar | null;
}

const LONGEST_MS = 60_000;

/** A thread that reads, and the one order it is at. */
interface Reader {
  readonly worker: Worker;
  answer: ((answer: Reading | Unreadable | Error) => void) | null;
  /** for whom it is at it, where somebody watches */
  work: Work | undefined;
}

/** One reader for the whole process, kept warm; a file that takes too long ends it, and the next file gets a new one. */
const here: typeof globalThis & { evendryReader?: Reader | null; evendryTurn?: Promise<unknown> } = globalThis;

/**
 * Reads a log on a thread of its own, one at a time, so that the server answers others meanwhile. Throws Stopped where
 * the work that it belongs to is stopped, which ends the thread.
 */
export function readBytes(order: ReadOrder): Promise<Reading | Unreadable> {
  const work = workAtHand();
  const mine = (here.evendryTurn ?? Promise.resolve()).then(() => readOne(order, work));
  here.evendryTurn = mine.catch(() => {});
  return mine;
}

async function readOne(order: ReadOrder, work: Work | undefined): Promise<Reading | Unreadable> {
  goOn({ step: "reading", bytes: 0, rows: 0, ofRows: null, pass: (work?.progress.pass ?? 0) + 1 }, work);
  here.evendryReader ??= hire();
  const reader = here.evendryReader;
  reader.worker.ref();
  reader.work = work;
  const stop = () => dismiss(reader, new Stopped());
  work?.stopping.signal.addEventListener("abort", stop, { once: true });
  return new Promise((resolve, reject) => {
    const late = setTimeout(
      () => dismiss(reader, { refused: "too-slow", detail: `${LONGEST_MS / 1000} s` }),
      LONGEST_MS,
    );
    reader.answer = (answer) => {
      clearTimeout(late);
      work?.stopping.signal.removeEventListener("abort", stop);
      reader.work = undefined;
      reader.answer = null;
      reader.worker.unref();
      if (answer instanceof Error) reject(answer);
      else resolve(answer);
    };
    reader.worker.postMessage(order);
  });
}

type Told =
  | { readonly reading: Reading | Unreadable; readonly to: number }
  | { readonly more: readonly RowRead[] }
  | { readonly trouble: string }
  | { readonly rows: number; readonly of: number };

/** Its records are told apart once it speaks of rows: all bytes have been read by then. */
function note({ work }: Reader, rows: number, ofRows: number): void {
  if (work !== undefined && !work.stopping.signal.aborted) goOn({ bytes: work.progress.ofBytes, rows, ofRows }, work);
}

function hire(): Reader {
  const worker = new Worker(join(/*turbopackIgnore: true*/ process.cwd(), "server/jobs/readingThread.mjs"), {
    resourceLimits: { maxOldGenerationSizeMb: 1024 },
  });
  const reader: Reader = { worker, answer: null, work: undefined };
  let rows: RowRead[] = [];
  let whole: { readonly reading: Reading | Unreadable; readonly to: number } | null = null;
  worker.on("message", (told: Told) => {
    if ("of" in told) return note(reader, told.rows, told.of);
    if ("trouble" in told) return reader.answer?.(new Error(told.trouble));
    if ("reading" in told) [whole, rows] = [told, []];
    else for (const row of told.more) rows.push(row);
    if (whole === null) return;
    // asked for bit by bit, the rows leave a turn to whoever waits for this thread
    if (rows.length === 0 && whole.to > 0) worker.postMessage("more");
    else if (rows.length < whole.to) turnForOthers(reader.work).then(() => worker.postMessage("more"));
    else reader.answer?.("rows" in whole.reading ? { ...whole.reading, rows } : whole.reading);
  });
  // A thread that ran out of memory ends by an error of its own.
  worker.on("error", () => dismiss(reader, { refused: "too-slow", detail: "memory" }));
  worker.on("exit", () => dismiss(reader, { refused: "too-slow", detail: "ended" }));
  return reader;
}

function dismiss(reader: Reader, answer: Unreadable | Error): void {
  if (here.evendryReader === reader) here.evendryReader = null;
  reader.answer?.(answer);
  reader.worker.terminate().catch(() => {});
}
