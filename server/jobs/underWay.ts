import { AsyncLocalStorage } from "node:async_hooks";
import { answerWaitsFor } from "#server/front/currentAnswer";

/** How far the reading, counting or taking back of a log is. Bytes and rows are those of the pass that runs now. */
export interface Progress {
  /** "counting": its rows are to be kept; "reading": somebody looks at it, nothing is stored; "taking-back": it is undone */
  readonly doing: "reading" | "counting" | "taking-back";
  readonly step: "reading" | "storing";
  readonly bytes: number;
  readonly ofBytes: number;
  /** rows; of a log that is taken back, its loads */
  readonly rows: number;
  /** null until its records are told apart */
  readonly ofRows: number | null;
  /** how often it was begun to be read; more than once where its site had declared something else for its month */
  readonly pass: number;
  /** it is large and counts part by part: what is stored so far counts already, also when it is stopped */
  readonly inParts: boolean;
}

/** A log that is being read, counted or taken back now, for a person. */
export interface Work {
  readonly file: string;
  readonly person: string;
  readonly stopping: AbortController;
  progress: Progress;
}

/** Somebody stopped it; what was not committed is as if it had not begun. */
export class Stopped extends Error {
  constructor() {
    super("somebody stopped it");
  }
}

/** One for all bundles that share the process: routes begin work, pages ask how far it is. Nothing of it is stored. */
const here: typeof globalThis & {
  evendryWork?: { readonly all: Map<Work, number>; readonly own: AsyncLocalStorage<Work> };
} = globalThis;
here.evendryWork ??= { all: new Map(), own: new AsyncLocalStorage() };
const { all, own } = here.evendryWork;

interface About extends Pick<Work, "file" | "person">, Pick<Progress, "doing" | "ofBytes"> {
  /** told part by part by who does it, and stopped between two parts, in the place of inside */
  readonly inParts?: boolean;
}

/** Does something with a log so that its progress shows and it can be stopped; the same for the same person is one work. */
export async function underWay<T>(
  { file, person, doing, ofBytes, inParts = false }: About,
  act: (work: Work) => Promise<T>,
): Promise<T> {
  const same = [...all.keys()].find(
    (work) => work.file === file && work.person === person && work.progress.doing === doing,
  );
  const begun: Progress = { doing, step: "reading", bytes: 0, ofBytes, rows: 0, ofRows: null, pass: 0, inParts };
  const work = same ?? { file, person, stopping: new AbortController(), progress: begun };
  all.set(work, (all.get(work) ?? 0) + 1);
  answerWaitsFor(work);
  try {
    return await (inParts ? act(work) : own.run(work, act, work));
  } finally {
    const users = (all.get(work) ?? 0) - 1;
    if (users > 0) all.set(work, users);
    else all.delete(work);
  }
}

/** Does something for the present work that is not to tell or to stop inside: who does it does so between two parts. */
export function aside<T>(act: () => Promise<T>): Promise<T> {
  return own.exit(act);
}

/** What the present call is part of; undefined where nobody watches it. */
export function workAtHand(): Work | undefined {
  return own.getStore();
}

/** Notes how far the present work is. Throws Stopped where somebody stopped it. */
export function goOn(further: Partial<Progress> = {}, work = own.getStore()): void {
  if (work === undefined) return;
  if (work.stopping.signal.aborted) throw new Stopped();
  work.progress = { ...work.progress, ...further };
}

/** How far a log is: its counting or taking back, whoever does it, or else this person's own reading; null where nothing runs. */
export function progressOf(file: string, person: string): Progress | null {
  const [first] = worksOn(file, person);
  return first?.progress ?? null;
}

/** Stops what `progressOf` tells of; answers whether there was anything to stop. */
export function stopWork(file: string, person: string): boolean {
  const works = worksOn(file, person);
  for (const work of works) {
    all.delete(work);
    work.stopping.abort();
  }
  return works.length > 0;
}

const ORDER: readonly Progress["doing"][] = ["taking-back", "counting", "reading"];

function worksOn(file: string, person: string): Work[] {
  return [...all.keys()]
    .filter((work) => work.file === file && (work.person === person || work.progress.doing !== "reading"))
    .sort((a, b) => ORDER.indexOf(a.progress.doing) - ORDER.indexOf(b.progress.doing));
}
