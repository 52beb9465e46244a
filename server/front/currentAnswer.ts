import { AsyncLocalStorage } from "node:async_hooks";
import type { ServerResponse } from "node:http";

/** Who has waited longer than this waits for work of his own, not for a turn. */
const LATELY_MS = 2_000;

/** An answer that is being made: since when, and the work that it waits for, if any. */
interface InHand {
  readonly since: number;
  work: object | null;
}

/** One for all bundles that share the process: the front server fills it, pages ask it. */
const here: typeof globalThis & {
  evendryAnswers?: {
    readonly own: AsyncLocalStorage<ServerResponse>;
    readonly inHand: Map<ServerResponse, InHand>;
  };
} = globalThis;
here.evendryAnswers ??= { own: new AsyncLocalStorage(), inHand: new Map() };
const { own, inHand } = here.evendryAnswers;

/** Answers a request so that a page, while it is made, can still say with which status. */
export function whileAnswering(response: ServerResponse, answer: () => Promise<void>): Promise<void> {
  inHand.set(response, { since: performance.now(), work: null });
  response.once("close", () => inHand.delete(response));
  return own.run(response, answer);
}

/** Says that the present answer waits for some work, which therefore must not wait for it. */
export function answerWaitsFor(work: object): void {
  const response = own.getStore();
  const mine = response === undefined ? undefined : inHand.get(response);
  if (mine !== undefined) mine.work = work;
}

/** Whether somebody asked something lately that is not answered yet, and waits for other work than this. */
export function othersWait(work?: object): boolean {
  const present = own.getStore();
  const lately = performance.now() - LATELY_MS;
  for (const [response, asked] of inHand)
    if (response !== present && asked.since > lately && (work === undefined || asked.work !== work)) return true;
  return false;
}

/**
 * Says that the page that is being made is answered with 404.
 *
 * The page server's own way to say so sends an empty page that only a script fills: nothing to read without one.
 */
export function answerNothingHere(): void {
  const response = own.getStore();
  if (response !== undefined && !response.headersSent) response.statusCode = 404;
}

/** Says that what is being answered may do nothing at all where a browser opens it in place. */
export function answerSandboxed(): void {
  own.getStore()?.setHeader("content-security-policy", "sandbox; default-src 'none'");
}
