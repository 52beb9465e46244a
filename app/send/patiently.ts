import type { Sending } from "#server/api/logs";

/** What takes longer is shown under way, and its answer kept until the page that waits for it asks again. */
const FIRST_MS = 1500;
const AGAIN_MS = 250;
/** An answer that nobody fetches is dropped after so long. */
export const KEPT_MS = 120_000;
/** A page that is asked for twice at once must not begin anew for the second. */
export const STILL_MS = 10_000;

/** Answers that somebody waits for, by who waits for what. */
export type Waiting<T> = Map<string, Promise<T>>;

/** One for all bundles that share the process: a route begins to count, the page fetches what came of it. */
const here: typeof globalThis & { evendryCounts?: Waiting<Sending> } = globalThis;
here.evendryCounts ??= new Map();

/** Logs that are being counted, by person and file. */
export const counts = here.evendryCounts;

/**
 * Waits a moment for something; asked again under the same key, for the same. Null where it takes longer. An answer is
 * given once; one that was waited for, also for `stillMs` after that.
 */
export async function patiently<T>(
  awaited: Waiting<T>,
  key: string,
  begin: () => Promise<T>,
  stillMs = 0,
): Promise<{ readonly answer: T } | null> {
  const before = awaited.get(key);
  const begun = before ?? begin();
  if (before === undefined) {
    awaited.set(key, begun);
    const drop = () => {
      if (awaited.get(key) === begun) awaited.delete(key);
    };
    const dropLater = () => void setTimeout(drop, KEPT_MS).unref();
    begun.then(dropLater, dropLater);
  }
  const late = new Promise<null>((on) => setTimeout(on, before === undefined ? FIRST_MS : AGAIN_MS, null));
  try {
    const first = await Promise.race([begun.then((answer) => ({ answer })), late]);
    if (first !== null && (stillMs === 0 || before === undefined)) awaited.delete(key);
    else if (first !== null) setTimeout(() => awaited.get(key) === begun && awaited.delete(key), stillMs).unref();
    return first;
  } catch (trouble) {
    awaited.delete(key);
    throw trouble;
  }
}

/** Forgets what somebody waited for. */
export function waitNoMore<T>(awaited: Waiting<T>, beginning: string): void {
  for (const key of awaited.keys()) if (key.startsWith(beginning)) awaited.delete(key);
}
